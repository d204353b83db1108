// A rung that has nothing yet says so in one sentence.
import { slopeName } from '../job/job_parts';
import { Frame } from '../parts/frame';
import type { Session } from '../session';
import { say } from '../words/words';

export function Later({ session, rung }: { session: Session; rung: 'water' }) {
  const name = slopeName(session.job.slopes[0]!, 0);
  return (
    <Frame
      session={session}
      rung={rung}
      title={say(`rung.${rung}`)}
      stage={{ view: `roof/${name}`, views: [], onView: () => undefined, look: 'no-lengths', mark: () => '' }}
    >
      <h2>{say(`rung.${rung}`)}</h2>
      <p class="lead-in">{say(`later.${rung}`)}</p>
    </Frame>
  );
}
