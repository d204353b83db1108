// What a job is made of, by name and place. Names as the engine gives them where the file gives none.
import type { Job, JobJunction, JobSlope } from '../generated/job';

export const slopeName = (slope: JobSlope, index: number): string => slope.name ?? `slope ${index + 1}`;

// How lengths of this job are shown.
export const isInches = (job: Job): boolean => (job.show ?? job.unit ?? 'mm') === 'in';

export const junctionName = (junction: JobJunction, index: number): string =>
  junction.name ?? `junction ${index + 1}`;

export interface JunctionPlace {
  slope: number;
  junction: number;
  path: string;
}

export function placeOfJunction(job: Job, slope: string, junction: string): JunctionPlace | null {
  for (const [i, one] of job.slopes.entries()) {
    if (slopeName(one, i) !== slope) continue;
    const at = (one.junctions ?? []).findIndex((other, j) => junctionName(other, j) === junction);
    if (at >= 0) return { slope: i, junction: at, path: `slopes[${i}].junctions[${at}]` };
  }
  return null;
}

// A name that no other has: "stack", "stack 2", ...
export function freeName(base: string, taken: string[]): string {
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? base : `${base} ${n}`;
    if (!taken.includes(name)) return name;
  }
}
