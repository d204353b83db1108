// Larger changes of a job: a new one, a wall or stack more, one less, a guess, a rule. Each gives a new job.
import type { Job, JobJunction, JobSlope } from '../generated/job';
import { freeName, junctionName, slopeName } from './job_parts';
import { withValue } from './path';

export type Addable = 'left' | 'right' | 'top' | 'stack' | 'pipe' | 'valley' | 'slope';

export type Standing = Exclude<Addable, 'valley' | 'slope'>; // on one slope

export interface Spot {
  u: number; // along the eaves, mm
  s: number; // up the slope, mm
}

// What is not measured yet stands in a new job as a guess, and is told as one.
export function emptyJob(title: string, slope: string, kind: JobSlope['covering']['kind'] = 'plain-tile'): Job {
  const sizes = {
    'plain-tile': { length: 265, width: 165, thickness: 12, max_gauge: 100 },
    slate: { length: 500, width: 250, thickness: 6 },
    'profiled-tile': { length: 420, width: 330, thickness: 30, max_gauge: 345 },
    'flat-tile': { length: 420, width: 330, thickness: 25, max_gauge: 345 },
  }[kind];
  return {
    format: 'lapwright-job/1',
    title,
    unit: 'mm',
    guessed: [
      'slopes[0].pitch', 'slopes[0].rafter', 'slopes[0].width',
      'slopes[0].covering.length', 'slopes[0].covering.width', 'slopes[0].covering.thickness',
    ],
    slopes: [{ name: slope, pitch: 40, rafter: 3600, width: 4800, covering: { kind, ...sizes }, junctions: [] }],
  };
}

const rounded = (value: number): number => Math.max(0, Math.round(value / 10) * 10);

function junctionFor(kind: Standing, name: string, spot: Spot): { junction: JobJunction; guessed: string[] } {
  switch (kind) {
    case 'left':
    case 'right':
      return {
        junction: { name, kind: 'side', hand: kind, gap: 6, wall: { kind: 'brick', course: 75, first_joint: 40 } },
        guessed: ['gap', 'wall.course', 'wall.first_joint'],
      };
    case 'top':
      return { junction: { name, kind: 'top', wall: { kind: 'brick', course: 75 } }, guessed: ['wall.course'] };
    case 'stack':
      return {
        junction: {
          name, kind: 'stack', at: rounded(spot.u), front: rounded(spot.s), width: 665, depth: 440, gap: 6,
          wall: { kind: 'brick', course: 75, first_joint: 40 },
        },
        guessed: ['at', 'front', 'width', 'depth', 'gap', 'wall.course', 'wall.first_joint'],
      };
    case 'pipe':
      return {
        junction: { name, kind: 'pipe', at: rounded(spot.u), up: rounded(spot.s), diameter: 110 },
        guessed: ['at', 'up', 'diameter'],
      };
  }
}

export function withJunction(job: Job, slope: number, kind: Standing, base: string, spot: Spot): Job {
  const on = job.slopes[slope];
  if (!on) return job;
  const junctions = on.junctions ?? [];
  const name = freeName(base, junctions.map(junctionName));
  const made = junctionFor(kind, name, spot);
  const path = `slopes[${slope}].junctions[${junctions.length}]`;
  return {
    ...withValue(job, path, made.junction),
    guessed: [...(job.guessed ?? []), ...made.guessed.map((key) => `${path}.${key}`)],
  };
}

// Another slope as this one is, its own sizes guessed.
export function withSlope(job: Job, slope: number, base: string): Job {
  const on = job.slopes[slope];
  if (!on) return job;
  const at = job.slopes.length;
  const other: JobSlope = { ...on, name: freeName(base, job.slopes.map(slopeName)), junctions: [] };
  delete other.faces;
  return {
    ...job,
    slopes: [...job.slopes.map((one, i) => (i === slope ? { ...one, name: slopeName(one, i) } : one)), other],
    guessed: [...(job.guessed ?? []), ...['pitch', 'rafter', 'width'].map((key) => `slopes[${at}].${key}`)],
  };
}

// A valley needs the slope beyond it.
export function withValley(job: Job, slope: number, base: string): Job {
  const next = withSlope(job, slope, base);
  const on = next.slopes[slope];
  const other = next.slopes.at(-1);
  if (next === job || !on || !other) return job;
  const slopes = [slopeName(on, slope), slopeName(other, next.slopes.length - 1)];
  return { ...next, joins: [...(job.joins ?? []), { kind: 'valley', slopes }] };
}

// Guesses name places by number: those behind a place that goes away move up.
function withoutPlace(guessed: string[], list: string, index: number): string[] {
  const start = `${list}[`;
  return guessed.flatMap((path) => {
    if (!path.startsWith(start)) return [path];
    const end = path.indexOf(']', start.length);
    const at = Number(path.slice(start.length, end));
    if (at === index) return [];
    return [at < index ? path : `${start}${at - 1}${path.slice(end)}`];
  });
}

export function withoutJunction(job: Job, slope: number, junction: number): Job {
  const list = `slopes[${slope}].junctions`;
  return tidy({
    ...withValue(job, `${list}[${junction}]`, undefined),
    guessed: withoutPlace(job.guessed ?? [], list, junction),
  });
}

export function withoutSlope(job: Job, slope: number): Job {
  const on = job.slopes[slope];
  if (!on || job.slopes.length < 2) return job;
  const name = slopeName(on, slope);
  return tidy({
    ...job,
    slopes: job.slopes.filter((_, i) => i !== slope),
    joins: (job.joins ?? []).filter((join) => !join.slopes.includes(name)),
    guessed: withoutPlace(job.guessed ?? [], 'slopes', slope),
  });
}

export function guess(job: Job, path: string, guessed: boolean): Job {
  const rest = (job.guessed ?? []).filter((one) => one !== path);
  return tidy({ ...job, guessed: guessed ? [...rest, path] : rest });
}

// `unit` is the rule's own; a bare length would be read in the file's unit.
export function withRule(job: Job, rule: string, value: number | string | undefined, unit: string): Job {
  const written = typeof value === 'number' && unit === 'mm' ? `${value} mm` : value;
  return tidy(withValue(job, `practice["${rule}"]`, written));
}

function tidy(job: Job): Job {
  const out = { ...job };
  if (out.guessed?.length === 0) delete out.guessed;
  if (out.joins?.length === 0) delete out.joins;
  if (out.practice && Object.keys(out.practice).length === 0) delete out.practice;
  return out;
}
