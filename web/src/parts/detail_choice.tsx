// Which detail serves at a junction: the one taken first, the others behind it, each with its judgement and its reason.
import type { Plan } from '../generated/plan';
import { placeOfJunction } from '../job/job_parts';
import { valueAt } from '../job/path';
import type { Session } from '../session';
import { say, sayIfKnown, sayMany } from '../words/words';
import { Judgement, type Level } from './judgement';

type Choice = NonNullable<Plan['choices']>[number];

// What has no place at such a face is named and no more: nobody would do it.
const kNowhere = new Set(['detail.not_at_this_face', 'detail.apron_at_side', 'detail.apron_holds_water']);
const nameOf = (choice: Choice): string => sayIfKnown(`detail.${choice.detail}`, choice.detail);

const kOrder: Level[] = ['right', 'doubt', 'wrong'];
const levelOf = (choice: Choice): Level => (choice.level === 'note' ? 'right' : choice.level);

interface Props {
  session: Session;
  slope: string;
  junction: string;
  open: boolean;
}

export function DetailChoice({ session, slope, junction, open }: Props) {
  const all = (session.readable?.plan?.choices ?? []).filter((one) => one.slope === slope && one.junction === junction);
  const place = placeOfJunction(session.job, slope, junction);
  const insisted = place ? (valueAt(session.job, `${place.path}.detail`) as string | undefined) : undefined;
  const faces = [...new Set(all.map((one) => one.face ?? ''))];
  if (all.length === 0) return null;
  return (
    <div class="detail">
      {faces.map((face) => {
        const here = all
          .filter((one) => (one.face ?? '') === face)
          .sort((a, b) => Number(b.taken ?? false) - Number(a.taken ?? false) || kOrder.indexOf(levelOf(a)) - kOrder.indexOf(levelOf(b)));
        const [taken, ...rest] = here;
        if (!taken) return null;
        const others = rest.filter((one) => !kNowhere.has(one.rule ?? ''));
        const nowhere = rest.filter((one) => kNowhere.has(one.rule ?? ''));
        return (
          <div key={face}>
            <p class="taken">
              {face && <small data-engine>{face}: </small>}
              <b>{nameOf(taken)}</b> <Judgement level={levelOf(taken)} />
            </p>
            {levelOf(taken) !== 'right' && <p class="reason" data-engine>{taken.text}</p>}
            {others.length > 0 && (
              <details open={open && faces.length === 1}>
                <summary>{sayMany('detail.others', others.length)}</summary>
                <ul class="details">
                  {others.map((one) => (
                    <li key={one.detail} class={levelOf(one)}>
                      <p><b>{nameOf(one)}</b> <Judgement level={levelOf(one)} /></p>
                      <p class="reason" data-engine>{one.text}</p>
                      {place && (
                        <button type="button" onClick={() => session.set(`${place.path}.detail`, one.detail, '')}>
                          {say(levelOf(one) === 'right' ? 'detail.use' : 'detail.insist')}
                        </button>
                      )}
                    </li>
                  ))}
                </ul>
                {nowhere.length > 0 && (
                  <p class="nowhere">{say('detail.nowhere', { names: nowhere.map((one) => nameOf(one).toLowerCase()).join(', ') })}</p>
                )}
              </details>
            )}
          </div>
        );
      })}
      {place && insisted && (
        <p class="insisted">
          {say('detail.insisted')}{' '}
          <button type="button" onClick={() => session.set(`${place.path}.detail`, undefined, '')}>{say('detail.let_go')}</button>
        </p>
      )}
    </div>
  );
}
