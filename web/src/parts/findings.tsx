// What was found, worst first, each leading to the field that mends it.
import { mendOf, type Finding } from '../job/mending';
import { go, type Route } from '../route';
import type { Session } from '../session';
import { say } from '../words/words';
import { Judgement } from './judgement';

function routeOfMend(session: Session, finding: Finding): Route | null {
  const mend = mendOf(session.job, finding);
  const at = { at: 'job', id: session.id } as const;
  switch (mend.to) {
    case 'field':
      return { ...at, rung: 'measure', rest: [mend.path] };
    case 'rule':
      return { ...at, rung: 'layout', rest: ['practice', mend.rule] };
    case 'junction':
      return { ...at, rung: 'lead', rest: ['at', mend.slope, mend.junction] };
    case 'nowhere':
      return null;
  }
}

export function Findings({ session, findings }: { session: Session; findings: Finding[] }) {
  if (findings.length === 0) return <p class="quiet"><Judgement level="right" /> {say('findings.none')}</p>;
  return (
    <ul class="findings">
      {findings.map((finding, i) => {
        const route = routeOfMend(session, finding);
        return (
          <li key={i} class={finding.level}>
            <Judgement level={finding.level} />
            <p data-engine>{finding.text}</p>
            {finding.source && <p class="source" data-engine>{finding.source}</p>}
            {route && finding.level !== 'note' && (
              <button type="button" onClick={() => go(route)}>{say('findings.mend')}</button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
