// Values that keep the roof from being drawn and are not asked for here: each with what is wrong and the way to its field.
import { tellFault, questionOf } from '../job/faults';
import { questionsOf } from '../job/questions';
import { valueAt } from '../job/path';
import { typedOf } from '../job/answers';
import { addressOf } from '../route';
import type { Session } from '../session';
import { say, sayIfKnown } from '../words/words';
import { Judgement } from './judgement';

const kShown = 4;

export function FaultsElsewhere({ session, here }: { session: Session; here: string }) {
  const faults = session.seen?.faults ?? [];
  if (faults.length === 0) return null;
  const questions = questionsOf(session.job);
  const others = faults
    .map((fault) => ({ fault, asked: questionOf(fault, questions) }))
    .filter(({ asked }) => !asked || asked.path !== here)
    .slice(0, kShown);
  if (others.length === 0) return null;
  return (
    <div class="elsewhere" role="status">
      <p><Judgement level="wrong" /> {say('fault.elsewhere')}</p>
      <ul>
        {others.map(({ fault, asked }) => {
          const told = tellFault(fault, asked ? typedOf(valueAt(session.job, asked.path), 'mm').text : '-');
          const words = <>{told.text} <span data-engine>{told.own}</span></>;
          return (
            <li key={fault.path}>
              {asked && (
                <a href={addressOf({ at: 'job', id: session.id, rung: 'measure', rest: [asked.path] })}>
                  <span data-own>{asked.about}</span>: {sayIfKnown(`ask.${asked.ask}`, asked.ask)}
                </a>
              )}
              <p>{words}</p>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
