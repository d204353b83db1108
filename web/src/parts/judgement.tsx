// The words for judgement, each with its own shape: a filled round, a notched one, a broken one.
import { say } from '../words/words';

export type Level = 'right' | 'note' | 'doubt' | 'wrong';

// A ring that is whole, has a notch, is broken in two; a dot for a note.
const kShapes: Record<Level, string> = {
  right: 'M10 2a8 8 0 1 1 0 16a8 8 0 1 1 0-16M6 10.3l2.8 2.7L14.2 7.4',
  note: 'M10 6.5a3.5 3.5 0 1 1 0 7a3.5 3.5 0 1 1 0-7',
  doubt: 'M10 2L18.5 17.5H1.5ZM10 7.5V12M10 14.2V15.6',
  wrong: 'M3 3L17 17M17 3L3 17',
};

export function Judgement({ level, quiet = false }: { level: Level; quiet?: boolean }) {
  return (
    <span class={`judgement ${level}`}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        <path d={kShapes[level]} />
      </svg>
      <span class={quiet ? 'unseen' : ''}>{say(`level.${level}`)}</span>
    </span>
  );
}
