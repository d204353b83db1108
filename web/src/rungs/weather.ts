// What a junction stands of drift and wind together, from the weathers that the engine worked out.
//
// Who stands a weather stands every milder one, so a weather is judged by those around it: right where a harder one is
// stood, wrong where a milder one is not, and in doubt between the two.
import type { Plan } from '../generated/plan';

export type Frontier = NonNullable<Plan['check']>[number];
export type Verdict = 'right' | 'doubt' | 'wrong';

export interface Known {
  drift: number; // degrees
  climb: number; // mm up along the units
  least: boolean; // stands at least so much; how much more was not worked out
}

const kSame = 1e-6;

export function leadCurve(f: Frontier): Known[] {
  if (f.drift < 0 || f.climb < 0) return [];
  // Where it stands as much as it must, it was not asked for more: as much as the covering there, less what it lies back.
  const back = Math.max(0, f.covering_climb - f.climb);
  const between = (f.points ?? [])
    .filter((p) => p.climb >= 0 && p.drift < f.drift)
    .map((p) => {
      const least = p.climb >= p.covering - kSame;
      return { drift: p.drift, climb: Math.min(f.climb, least ? p.covering - back : p.climb), least };
    });
  return [{ drift: 0, climb: f.climb, least: false }, ...between, { drift: f.drift, climb: 0, least: false }];
}

export function coveringCurve(f: Frontier): Known[] {
  const between = (f.points ?? []).filter((p) => p.drift < f.covering_drift).map((p) => ({ drift: p.drift, climb: p.covering, least: false }));
  return [{ drift: 0, climb: f.covering_climb, least: false }, ...between, { drift: f.covering_drift, climb: 0, least: false }];
}

export function verdictOf(curve: Known[], drift: number, climb: number): Verdict {
  if (curve.some((p) => p.drift >= drift - kSame && p.climb >= climb - kSame)) return 'right';
  const last = curve.at(-1);
  if (!last || drift > last.drift + kSame) return 'wrong';
  return curve.some((p) => !p.least && p.drift <= drift + kSame && p.climb < climb - kSame) ? 'wrong' : 'doubt';
}

// How far up the units a wind drives water: its head grows with the square of the wind. Head and climb of one weather
// are the engine's, so no number of the trade stands here.
export function climbOf(wind: number, f: Frontier, all: Frontier[]): number {
  const known = [f, ...all.filter((one) => one.slope === f.slope), ...all].find((one) => one.wind > 0 && one.rise > 0);
  return known ? known.climb * (wind / known.wind) ** 2 : 0;
}

// The mildest weather of one kind in which any of them gives; null: none that is worked out.
export function firstDrift(all: Frontier[]): { at: number; of: Frontier } | null {
  const of = [...all].sort((a, b) => a.drift - b.drift)[0];
  return of ? { at: Math.max(0, of.drift), of } : null;
}
export function firstWind(all: Frontier[]): { at: number; of: Frontier } | null {
  const of = [...all].sort((a, b) => a.wind - b.wind)[0];
  return of ? { at: of.climb < 0 ? 0 : of.wind, of } : null;
}
