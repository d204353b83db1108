// What goes between the page and the worker.
export interface Part {
  name: string;
  media: string;
  bytes: Uint8Array;
}

export interface Outcome {
  status: number;
  faults: string[];
  json: Uint8Array;
  text: Uint8Array;
  documents: Part[];
  yard?: Uint8Array; // of a planning: the yard after this job
}

export type CallName =
  | 'see' | 'plan' | 'why' | 'rules' | 'words' | 'check' | 'odds' | 'compare' | 'offer' | 'form' | 'yard' | 'schema' | 'version';

// Of a planning in slices.
export interface Slices {
  effort: number;
  documents: boolean;
  pages: boolean;
  only: string;
  paper: string;
  rolls: number; // mm of screen that the rolls are drawn for; 0: not drawn
}

export interface Call {
  call: CallName;
  job?: string;
  name?: string; // a mark, a schema, an offer, a size of paper, the other job
  yard?: string;
  room?: { width: number; height: number };
  quick?: boolean; // not examined
  slices?: Slices;
}

export type ToWorker = { module: Uint8Array } | { stop: number } | ({ id: number } & Call);

export type FromWorker =
  | { id: number; outcome: Outcome }
  | { id: number; share: number; whole: boolean } // how far a planning is, and whether it can be stopped
  | { id: number; failed: string };
