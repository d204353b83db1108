// From what is found to the field that mends it.
import type { Job } from '../generated/job';
import type { Plan } from '../generated/plan';
import { placeOfJunction, slopeName } from './job_parts';

export type Finding = NonNullable<Plan['findings']>[number];

export type Mend =
  | { to: 'field'; path: string }
  | { to: 'rule'; rule: string }
  | { to: 'junction'; slope: string; junction: string }
  | { to: 'nowhere' };

// By the beginning of the finding's rule: what of the slope, or of the junction, decides it.
const kOfSlope: [string, string][] = [
  ['headlap.rafter', 'rafter'],
  ['headlap.', 'pitch'],
  ['pitch.', 'pitch'],
  ['gauge.', 'covering.max_gauge'],
  ['setout.', 'rafter'],
  ['bond.', 'width'],
  ['survey.long_rafter', 'rafter'],
  ['survey.sides_swapped', 'covering.length'],
  ['survey.', 'rafter'],
];
const kOfJunction: [string, string][] = [
  ['gap.', 'gap'],
  ['step.', 'wall.first_joint'],
  ['wall.', 'wall.course'],
];

const keyFor = (table: [string, string][], rule: string): string | undefined =>
  table.find(([start]) => rule.startsWith(start))?.[1];

export function mendOf(job: Job, finding: Finding): Mend {
  const where = finding.where ?? '';
  if (where.startsWith('$.')) return { to: 'field', path: where.slice(2) };
  if (where.startsWith('practice / ')) return { to: 'rule', rule: where.slice('practice / '.length) };
  const [slope = '', junction = ''] = where.split(' / ');
  const place = placeOfJunction(job, slope, junction);
  const index = job.slopes.findIndex((one, i) => slopeName(one, i) === slope);
  if (place) {
    const key = keyFor(kOfJunction, finding.rule);
    if (key) return { to: 'field', path: `${place.path}.${key}` };
    return { to: 'junction', slope, junction };
  }
  if (index < 0) return { to: 'nowhere' };
  const key = keyFor(kOfSlope, finding.rule);
  return key ? { to: 'field', path: `slopes[${index}].${key}` } : { to: 'nowhere' };
}
