// Measure: one question at a time, the drawing showing exactly what to measure.
import { useEffect, useState } from 'preact/hooks';
import { isAnswered, isGuessed, questionsOf, type Question } from '../job/questions';
import { junctionName, slopeName } from '../job/job_parts';
import { withoutJunction, withoutSlope, type Spot } from '../job/changes';
import { Frame, type View } from '../parts/frame';
import { QuestionCard } from '../parts/question_card';
import { AddThing } from '../parts/add_thing';
import { addressOf, go } from '../route';
import type { Session } from '../session';
import { say, sayIfKnown } from '../words/words';

function stateOf(session: Session, asked: Question): 'guessed' | 'measured' | 'open' {
  if (isGuessed(session.job, asked)) return 'guessed';
  return isAnswered(session.job, asked) ? 'measured' : 'open';
}

function AllQuestions({ session, questions, here }: { session: Session; questions: Question[]; here: string }) {
  let about = '';
  return (
    <details class="all">
      <summary>{say('measure.all', { count: questions.length })}</summary>
      <ul>
        {questions.map((asked) => {
          const heading = asked.about !== about;
          about = asked.about;
          const state = stateOf(session, asked);
          return (
            <li key={asked.path}>
              {heading && <h3 data-own>{asked.about}</h3>}
              <a
                href={addressOf({ at: 'job', id: session.id, rung: 'measure', rest: [asked.path] })}
                aria-current={asked.path === here ? 'step' : undefined}
              >
                <span>{sayIfKnown(`ask.${asked.ask}`, asked.ask)}</span>
                <span class={`state ${state}`}>{say(`measure.${state}`)}</span>
              </a>
            </li>
          );
        })}
      </ul>
    </details>
  );
}

function Things({ session }: { session: Session }) {
  const { job } = session;
  const at = (path: string) => addressOf({ at: 'job', id: session.id, rung: 'measure', rest: [path] });
  return (
    <ul class="things">
      {job.slopes.map((slope, i) => (
        <li key={i}>
          <div class="thing">
            <a href={at(`slopes[${i}].pitch`)} data-own>{slopeName(slope, i)}</a>
            {job.slopes.length > 1 && (
              <button type="button" onClick={() => session.change(withoutSlope(job, i))}>
                {say('measure.remove')}<span class="unseen" data-own> {slopeName(slope, i)}</span>
              </button>
            )}
          </div>
          <ul>
            {(slope.junctions ?? []).map((junction, j) => (
              <li key={j} class="thing">
                <a href={at(`slopes[${i}].junctions[${j}].${junction.kind === 'side' ? 'hand' : junction.kind === 'stack' || junction.kind === 'pipe' ? 'at' : 'wall.kind'}`)} data-own>
                  {junctionName(junction, j)}
                </a>
                <button type="button" onClick={() => session.change(withoutJunction(job, i, j))}>
                  {say('measure.remove')}<span class="unseen" data-own> {junctionName(junction, j)}</span>
                </button>
              </li>
            ))}
          </ul>
        </li>
      ))}
    </ul>
  );
}

export function Measure({ session, at }: { session: Session; at: string }) {
  const { job } = session;
  const questions = questionsOf(job);
  const index = Math.max(0, questions.findIndex((asked) => asked.path === at));
  const asked = questions[index];
  const [adding, setAdding] = useState(false);
  // Gone elsewhere, by a link or back: nothing is being added any more.
  useEffect(() => setAdding(false), [at]);
  const [spot, setSpot] = useState<Spot | null>(null);
  const [chosen, setChosen] = useState<{ path: string; view: string } | null>(null);
  const slope = Number(/^slopes\[(\d+)\]/.exec(asked?.path ?? '')?.[1] ?? 0);
  const name = slopeName(job.slopes[slope] ?? job.slopes[0]!, slope);
  const roof = `roof/${name}`;
  const views: View[] = [{ name: roof, label: say('drawing.roof') }];
  if (asked && asked.picture !== roof) views.push({ name: asked.picture, label: say('drawing.close') });
  const picked = chosen?.path === asked?.path ? chosen?.view : undefined;
  const view = adding ? roof : (picked ?? asked?.picture ?? roof);

  const step = (by: number) => {
    const next = questions[(index + by + questions.length) % questions.length];
    if (next) go({ at: 'job', id: session.id, rung: 'measure', rest: [next.path] });
  };
  const mark = (tag: string): string => {
    if (!tag.startsWith('measure/')) return '';
    const path = tag.slice('measure/'.length);
    if (path === asked?.path && !adding) return isGuessed(job, asked) ? 'asked open' : 'asked';
    return view === roof && (job.guessed ?? []).includes(path) ? 'open' : '';
  };

  return (
    <Frame
      session={session}
      rung="measure"
      title={say('rung.measure')}
      asked={adding ? '' : (asked?.path ?? '')}
      stage={{
        view,
        views,
        onView: (one) => asked && setChosen({ path: asked.path, view: one }),
        look: 'no-marks no-lengths',
        mark,
        onTags: (tags) => {
          // A tap on a length asks for it; on masonry, for what is measured there.
          const length = tags.find((tag) => tag.startsWith('measure/'));
          if (length) go({ at: 'job', id: session.id, rung: 'measure', rest: [length.slice('measure/'.length)] });
          const thing = tags.find((tag) => tag.startsWith('at/'))?.slice(3);
          const j = (job.slopes[slope]?.junctions ?? []).findIndex((one, k) => junctionName(one, k) === thing);
          const first = questions.find((one) => one.path.startsWith(`slopes[${slope}].junctions[${j}].`));
          if (!length && first) go({ at: 'job', id: session.id, rung: 'measure', rest: [first.path] });
        },
        onPlace: adding ? (u, s) => setSpot({ u, s }) : undefined,
      }}
    >
      {adding ? (
        <AddThing session={session} slope={slope} spot={spot} done={() => { setAdding(false); setSpot(null); }} />
      ) : (
        asked && (
          <>
            <QuestionCard session={session} asked={asked} count={say('measure.count', { n: index + 1, of: questions.length })} focus={at !== ''} />
            <div class="onward">
              <button type="button" onClick={() => step(-1)}>{say('measure.back')}</button>
              <button type="button" class="next" onClick={() => step(1)}>{say('measure.next')}</button>
            </div>
            <div class="more">
              <button type="button" class="add" onClick={() => setAdding(true)}>{say('add.start')}</button>
              <AllQuestions session={session} questions={questions} here={asked.path} />
              <details class="all">
                <summary>{say('measure.things')}</summary>
                <Things session={session} />
              </details>
              <label class="title-field">
                {say('job.title')}
                <input
                  type="text"
                  maxLength={200}
                  value={job.title ?? ''}
                  onInput={(event) => session.set('title', event.currentTarget.value)}
                />
              </label>
            </div>
          </>
        )
      )}
    </Frame>
  );
}
