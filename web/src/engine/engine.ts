// What the page asks of the engine, and nothing else: the rest of the page knows neither WebAssembly nor workers.
import type { Plan } from '../generated/plan';

// As the command's exit status: done; done but wrong somewhere; cannot be read; our own fault.
export type Status = 0 | 1 | 2 | 3;

// One thing that is wrong with a job file, at its place.
export interface Fault {
  code: string;
  path: string; // "$.slopes[0].pitch"
  read: string;
  accepted: string;
  mend: string;
  // What a number may be, as a person reads it; `above` and `below`: the bound itself is refused.
  range?: { least?: string; above?: boolean; most?: string; below?: boolean };
}

// The plan of a job with its pictures, by name: "roof/0", "side/0", "unit/0", "wall/0/1", "piece/S1".
export interface Seen {
  status: Status;
  faults: Fault[];
  plan: Plan | null;
  pictures: ReadonlyMap<string, string>;
}

export interface PaperFile {
  name: string;
  media: string;
  bytes: Uint8Array;
}

export interface Term {
  symbol: string;
  shown: string;
  from: string;
  rule?: string;
}

export interface OtherValue {
  value: number;
  shown: string;
  source: string;
}

// A rule of the practice pack, as the job has it.
export interface Rule {
  rule: string;
  value: number;
  shown: string;
  unit: string;
  source: string;
  standing: string;
  note: string;
  label?: string;
  least?: string;
  most?: string;
  bound_source?: string;
  pack_value: number;
  pack_shown: string;
  overridden: boolean;
  others: OtherValue[];
}

// One number of a piece or a set-out, explained.
export interface Explained {
  name: string;
  sentence: string;
  shown: string;
  formula: string;
  sum: string;
  terms: Term[];
  source: string;
  standing: string;
  rule?: Rule;
}

// What there is for a picture, mm at the size that it is shown.
export interface Room {
  width: number;
  height: number;
}

export interface Why {
  figures: Explained[];
  picture: string; // the piece's flat shape; empty for a slope
}

// A planning with its cutting list: which yard, how hard to look, what to hand back beside the plan.
export interface PlanAsk {
  job: string;
  yard: string; // empty: the engine's own
  effort: number; // 1 is about a second; 0 is the first whole cutting list
  rolls?: number; // mm of screen that the rolls are drawn for
  papers?: { only: string; size: PaperSize; pages: boolean };
}

export type PaperSize = 'A4' | 'A3';

export interface Planned {
  status: Status;
  faults: Fault[];
  plan: Plan | null;
  rolls: ReadonlyMap<string, string>; // pictures by the roll's name
  papers: PaperFile[];
  pages: ReadonlyMap<string, string[]>; // pictures of a paper's pages, by its file's stem
  yardAfter: string;
}

export interface Planning {
  planned: Promise<Planned | null>; // null when it was cancelled
  stop(): void; // to end soon, with the best cutting list so far
}

export interface Difference {
  what: 'set-out' | 'course' | 'piece' | 'figure' | 'quantity' | 'price' | 'finding';
  where: string;
  name: string;
  a: string;
  b: string;
}

export interface Compared {
  faults: Fault[];
  differences: Difference[];
  papers: PaperFile[];
}

// What the engine says, or what is wrong with what it was asked.
export type Answer<T> = { faults: Fault[]; value: null } | { faults: []; value: T };

export interface Engine {
  // The latest job asked for wins: a call that a newer one overtook gives null.
  // `quick`: without how it stands against water, which takes several times as long as everything else.
  see(job: string, room: Room, quick?: boolean): Promise<Seen | null>;
  // The same for a picture beside others: none of them overtakes another.
  glance(job: string, room: Room): Promise<Seen | null>;
  // In slices. One at a time: a newer one cancels the one before.
  plan(ask: PlanAsk, heard?: (share: number, whole: boolean) => void): Planning;
  // Ends a planning with nothing, also while it writes papers.
  cancelPlan(): void;
  compare(a: string, b: string, yard: string): Promise<Compared | null>;
  // A price that somebody gave, in words, beside the yard's.
  offer(words: string, yard: string): Promise<Answer<string>>;
  // The form to measure by; of an empty job, empty.
  form(job: string, size: PaperSize): Promise<PaperFile | null>;
  // The yard as the engine reads it, written again; empty: its own.
  readYard(yard: string): Promise<Answer<string>>;
  // A piece by its mark, or a slope's set-out by its name.
  why(job: string, mark: string, room: Room): Promise<Why>;
  rules(job: string): Promise<Rule[]>;
  // The engine's own words: details, kinds of pieces, standings, by key.
  words(): Promise<ReadonlyMap<string, string>>;
  check(job: string): Promise<Seen | null>;
  // The chance that each measured rule does not hold, one entry a rule and place.
  odds(job: string): Promise<unknown[]>;
  schema(name: 'job' | 'plan' | 'yard'): Promise<unknown>;
  version(): Promise<string>;
}
