// The chance that a measure does not hold, tapes, units and hands being what they are; and what to measure again.
import { useState } from 'preact/hooks';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say } from '../words/words';
import type { Odds as One } from './existing';
import { number } from './shown';

const kShown = 12;

export function Odds({ session }: { session: Session }) {
  const [state, put] = useState<{ of: string; all: One[] } | 'working' | 'failed' | null>(null);
  const words = useAnswer('words', () => session.engine.words());
  const ask = async () => {
    const of = session.readableText;
    put('working');
    try {
      put({ of, all: (await session.engine.odds(of)) as One[] });
    } catch {
      put('failed');
    }
  };
  const wordOf = (key: string, otherwise: string): string => words?.get(key) ?? otherwise;
  const all = state !== null && typeof state === 'object' ? state.all.filter((one) => one.chance > 0).sort((a, b) => b.chance - a.chance).slice(0, kShown) : [];
  return (
    <section class="odds">
      <h3>{say('odds.title')}</h3>
      <p class="from">{say('odds.about')}</p>
      <button type="button" class="wide" disabled={state === 'working'} onClick={() => void ask()}>{say(state === 'working' ? 'odds.working' : 'odds.ask')}</button>
      <div aria-live="polite">
        {state === 'failed' && <p>{say('engine.trouble')}</p>}
        {state !== null && typeof state === 'object' && (
          <>
            {state.of !== session.readableText && <p class="wrong-here">{say('odds.old')}</p>}
            {all.length === 0 && <p class="lead-in">{say('odds.none')}</p>}
            <ul class="proven">
              {all.map((one) => (
                <li key={`${one.where} ${one.rule}`}>
                  <p><b>{say('odds.chance', { n: number(Math.max(one.chance * 100, 1), 0) })}</b> <span data-engine>{wordOf(`check.name.${one.rule.replace(/^check\./, '')}`, one.rule)}</span></p>
                  <p class="quiet" data-own>{one.where}</p>
                  <p>{say('odds.values', { value: number(one.value, 1), limit: number(one.limit, 1) })}</p>
                  <p>{say('odds.matters')} <span data-engine>{wordOf(`odds.source.${one.matters}`, one.matters)}</span></p>
                  <p>{say('odds.moves', { mm: number(one.moves, 1) })}</p>
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </section>
  );
}
