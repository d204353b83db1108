// The order of work as it is stepped through: which things lie by then, and where a step is best seen.
import type { Plan } from '../generated/plan';

export type Step = NonNullable<Plan['order_of_work']>[number];

// A step's own name, the same as long as the step is: what a tick is kept under.
export function keysOf(steps: Step[]): string[] {
  const seen = new Map<string, number>();
  return steps.map((step) => {
    const key = [step.slope, step.junction ?? '', step.course ?? '', step.step, step.mark ?? ''].join('|');
    const n = (seen.get(key) ?? 0) + 1;
    seen.set(key, n);
    return n === 1 ? key : `${key}|${n}`;
  });
}

const isOfCourse = (step: Step): boolean => step.course !== undefined && step.course >= -1;

// "now" for what this step fits, "later" for what comes after it, "" for what lies already.
export function layerOf(steps: Step[], at: number): (tag: string) => '' | 'now' | 'later' {
  const current = steps[at];
  const place = new Map<string, number>(); // piece at its course and junction, and any of that mark there: first step
  steps.forEach((step, i) => {
    if (!step.mark) return;
    // A piece that lies on no course of its own may still have its turn at one: an apron before the courses beside it.
    for (const course of [isOfCourse(step) ? step.course : '*', '-2']) {
      const key = `${step.mark}/${course}/${step.junction ?? ''}`;
      if (!place.has(key)) place.set(key, i);
    }
  });
  // Courses lie as far as the steps have come on that slope.
  let reached = -2;
  let last = -2;
  steps.forEach((step, i) => {
    if (step.slope !== current?.slope || step.course === undefined || step.course < -1) return;
    last = Math.max(last, step.course);
    if (i <= at) reached = Math.max(reached, step.course);
  });
  if (steps.slice(0, at + 1).some((step) => step.slope === current?.slope && step.step.endsWith('_courses'))) reached = Infinity;
  if (last === -2 || reached === last) reached = Infinity;
  const chalking = current?.step === 'work.set_out';
  return (tag) => {
    if (tag.startsWith('batten/')) return chalking ? 'now' : '';
    const [kind, mark = '', course = '', ...rest] = tag.split('/');
    if (kind === 'course') return Number(mark) > reached ? 'later' : Number(mark) === reached && current?.course === reached ? 'now' : '';
    if (kind !== 'piece') return '';
    const junction = rest.join('/');
    const first = place.get(`${mark}/${course}/${junction}`) ?? place.get(`${mark}/*/${junction}`);
    if (first === undefined) return '';
    return first > at ? 'later' : first === at ? 'now' : '';
  };
}

// The wall where it is seen best, else the roof.
export function pictureOf(step: Step, names: Iterable<string>): string {
  const all = [...names];
  const wall = `wall/${step.slope}/${step.junction ?? ''}`;
  if (step.mark && !isOfCourse(step)) {
    const found = all.find((name) => name === wall || name.startsWith(`${wall}/`));
    if (found) return found;
  }
  return all.find((name) => name === `roof/${step.slope}`) ?? all[0] ?? '';
}
