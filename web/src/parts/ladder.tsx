// Six rungs, always in sight. A rung's ring tells its state by shape, and in words to who cannot see it.
import { addressOf, rungs, type Rung } from '../route';
import { say } from '../words/words';

export type RungState = 'open' | 'filled' | 'doubt' | 'wrong';

const kRings: Record<RungState, string> = {
  open: 'M12 4a8 8 0 1 1 0 16a8 8 0 1 1 0-16',
  filled: 'M12 4a8 8 0 1 1 0 16a8 8 0 1 1 0-16',
  doubt: 'M12 12V3.6A8.4 8.4 0 1 0 20.4 12Z',
  wrong: 'M10.6 3.8A8.3 8.3 0 0 0 10.6 20.2L9 14.5L12 12L9.4 8.6ZM14 3.9A8.3 8.3 0 0 1 14 20.1L13.2 15L16 12L12.6 9Z',
};

export function Ladder({ id, here, states }: { id: string; here: Rung; states: Record<Rung, RungState> }) {
  return (
    <nav class="ladder" aria-label={say('ladder.name')}>
      <ol>
        {rungs.map((rung) => (
          <li key={rung}>
            <a href={addressOf({ at: 'job', id, rung, rest: [] })} aria-current={rung === here ? 'page' : undefined}>
              <svg class={`rung ${states[rung]}`} viewBox="0 0 24 24" aria-hidden="true">
                <path d={kRings[states[rung]]} />
              </svg>
              <span class="word">{say(`rung.${rung}`)}</span>
              <span class="unseen">{say(`rung.state.${states[rung]}`)}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
