// One picture of both limits: what the junction stands of drift and climb together, and what the covering alone stands.
import { say } from '../words/words';
import { coveringCurve, leadCurve, type Frontier, type Known } from './weather';

const kWide = 300;
const kHigh = 150;
const kLeft = 8;
const kFoot = 8;

export function Limits({ f, drift, climb }: { f: Frontier; drift: number; climb: number }) {
  const lead = leadCurve(f);
  const covering = coveringCurve(f);
  const mostDrift = Math.max(60, drift, ...covering.map((p) => p.drift));
  const mostClimb = Math.max(1, 1.25 * Math.max(...covering.map((p) => p.climb), ...lead.map((p) => p.climb)));
  const x = (of: number) => kLeft + (Math.min(of, mostDrift) / mostDrift) * (kWide - kLeft - 4);
  const y = (of: number) => kHigh - kFoot - (Math.min(of, mostClimb) / mostClimb) * (kHigh - kFoot - 4);
  const line = (curve: Known[]) => curve.map((p) => `${x(p.drift).toFixed(1)},${y(p.climb).toFixed(1)}`).join(' ');
  return (
    <figure class="limits">
      <svg viewBox={`0 0 ${kWide} ${kHigh}`} role="img" aria-label={say('water.limits')}>
        <path class="axes" d={`M${kLeft} 2V${kHigh - kFoot}H${kWide - 2}`} />
        <polyline class="covering" points={line(covering)} />
        <polyline class="lead" points={line(lead)} />
        {lead.map((p) => <circle key={p.drift} class="known" cx={x(p.drift)} cy={y(p.climb)} r="2.4" />)}
        <circle class="now" cx={x(drift)} cy={y(climb)} r="5.5" />
      </svg>
      <figcaption>
        <span class="key lead">{say('water.key.lead')}</span> <span class="key covering">{say('water.key.covering')}</span>{' '}
        <span class="key now">{say('water.key.now')}</span> <span>{say('water.axes')}</span>
      </figcaption>
    </figure>
  );
}
