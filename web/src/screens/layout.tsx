// Lay out: the courses, the numbers behind them, and the practice values that they rest on.
import { useState } from 'preact/hooks';
import { slopeName } from '../job/job_parts';
import { Findings } from '../parts/findings';
import { Frame, type View } from '../parts/frame';
import { Practice } from '../parts/practice';
import { Whys } from '../parts/why';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say, sayMany } from '../words/words';

export function LayOut({ session, rest }: { session: Session; rest: string[] }) {
  const { job, readable } = session;
  const [slope, setSlope] = useState(0);
  const [view, setView] = useState('');
  const at = Math.min(slope, job.slopes.length - 1);
  const name = slopeName(job.slopes[at]!, at);
  const setOut = readable?.plan?.set_out?.find((one) => one.slope === name);
  const why = useAnswer(`${session.readableText}|${name}`, () => session.engine.why(session.readableText, name, session.room));
  const views: View[] = [
    ...job.slopes.map((one, i) => ({ name: `roof/${slopeName(one, i)}`, label: slopeName(one, i), own: true })),
    { name: `courses/${name}`, label: say('drawing.courses') },
  ];
  const findings = (readable?.plan?.findings ?? []).filter((one) => (one.where ?? '').split(' / ')[0] === name && !(one.where ?? '').includes(' / '));
  if (rest[0] === 'practice') return <Practice session={session} open={rest[1] ?? ''} views={views} />;
  return (
    <Frame
      session={session}
      rung="layout"
      title={say('rung.layout')}
      stage={{
        view: view || `roof/${name}`,
        views,
        onView: (one) => {
          setView(one);
          const i = job.slopes.findIndex((s, k) => `roof/${slopeName(s, k)}` === one);
          if (i >= 0) setSlope(i);
        },
        look: 'no-marks',
        mark: (tag) => (view.startsWith('courses/') && tag.startsWith('measure/') ? 'shown' : ''),
      }}
    >
      <h2 data-own>{name}</h2>
      {setOut ? (
        <>
          <p class="lead-in">{say('layout.sum', { courses: setOut.courses, gauge: setOut.gauge, headlap: setOut.headlap })}</p>
          <Findings session={session} findings={findings} />
          {(setOut.headlaps ?? []).length > 0 && (
            <section>
              <h3>{say('layout.headlaps')}</h3>
              <div class="options tall">
                {(setOut.headlaps ?? []).map((one, i) => (
                  <button
                    key={i}
                    type="button"
                    aria-pressed={one.chosen}
                    onClick={() => session.set(`slopes[${at}].covering.headlap`, `${one.value} mm`, '')}
                  >
                    <b>{one.value} mm</b> <span data-engine>{one.source}</span>
                  </button>
                ))}
                {job.slopes[at]?.covering.headlap !== undefined && (
                  <button type="button" onClick={() => session.set(`slopes[${at}].covering.headlap`, undefined, '')}>
                    {say('layout.usual_headlap')}
                  </button>
                )}
              </div>
            </section>
          )}
          <section>
            <h3>{say('layout.why')}</h3>
            <Whys session={session} figures={why?.figures ?? []} />
          </section>
          <details class="all">
            <summary>{sayMany('layout.battens', (setOut.battens ?? []).length)}</summary>
            <ol class="battens" data-engine>
              {(setOut.battens ?? []).map(([mark, course]) => <li key={course}>{Math.round(mark)}</li>)}
            </ol>
          </details>
        </>
      ) : (
        <p>{say('drawing.none')}</p>
      )}
      <p><a class="button" href={`#/job/${encodeURIComponent(session.id)}/layout/practice`}>{say('practice.open')}</a></p>
    </Frame>
  );
}
