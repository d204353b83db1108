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
}

export type CallName = 'see' | 'documents' | 'why' | 'rules' | 'words' | 'check' | 'schema' | 'version';

export type ToWorker = { module: Uint8Array } | { id: number; call: CallName; job: string; name: string; room: { width: number; height: number } };

export type FromWorker = { id: number; outcome: Outcome } | { id: number; failed: string };
