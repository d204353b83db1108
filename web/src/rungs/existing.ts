// What the engine says of a roof that stands already, and what a job holds about it.
import type { Finding } from '../job/mending';

export interface Suspect {
  slope: string;
  junction: string;
  face?: string;
  found?: string;
  piece?: string;
  course?: number;
  as_built?: number;
  gives: 'any-rain' | 'sideways' | 'driven' | 'rain-on-wall' | 'little';
  s: number;
  strip_from: number;
  strip_to: number;
  fit: { mark: string; kind: string; count: number }[];
  leaks: number[];
  hose: number;
  texts: string[];
}

export interface Existing {
  findings: Finding[];
  suspects: Suspect[];
  unexplained: { leak: number; when?: string; text: string }[];
}

export interface Odds {
  rule: string;
  slope: string;
  junction?: string;
  where: string;
  value: number;
  limit: number;
  chance: number;
  matters: string;
  moves: number;
}

// The engine's words for what may be found, and what each of them asks to be told.
export const kFound = ['missing', 'short', 'shifted', 'pierced', 'lap', 'reversed', 'loose', 'low', 'detail'] as const;
export type FoundKind = (typeof kFound)[number];
export const asksBy = (kind: FoundKind): boolean => ['short', 'shifted', 'lap', 'low'].includes(kind);
export const kRain = ['none', 'light', 'steady', 'heavy'] as const;
export const kDetails = ['soakers-and-steps', 'soakers-and-cover', 'step-and-cover', 'cover-flashing', 'secret-gutter'] as const;
// Bearings that the wind blew from.
export const kWinds = ['n', 'ne', 'e', 'se', 's', 'sw', 'w', 'nw'] as const;

export interface Found {
  kind: FoundKind;
  slope?: string;
  junction: string;
  face?: string;
  piece?: string;
  course?: unknown;
  number?: unknown;
  by?: unknown;
  across?: unknown;
  up?: unknown;
  detail?: string;
}

export interface Leak {
  when?: string;
  wind_from?: number;
  rain?: string;
  where?: string;
}

// A piece of one kind lies on a course of its own, others are counted up the face.
export const isOfCourse = (piece: string | undefined): boolean => piece === 'soaker' || piece === 'mitred-soaker';

// Of another kind, what that one does not ask for goes away.
export function asKind(found: Found, kind: FoundKind, piece: string): Found {
  const { slope, junction, face } = found;
  const at = { ...(slope === undefined ? {} : { slope }), junction };
  if (kind === 'detail') return { kind, ...at, detail: found.detail ?? 'cover-flashing' };
  const which = {
    ...(face === undefined ? {} : { face }),
    piece: found.piece ?? piece,
    ...(found.course === undefined ? {} : { course: found.course }),
    ...(found.number === undefined ? {} : { number: found.number }),
  };
  if (asksBy(kind)) return { kind, ...at, ...which, by: found.by ?? 30 };
  return { kind, ...at, ...which };
}
