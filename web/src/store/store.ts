// Where jobs are kept. Two makers: the device (IndexedDB) and the folder that `lapwright serve` keeps.
//
// A job is its file's bytes as text, whole or not at all. Every save names the revision that it grew from; when another
// has written since, nothing is written and the caller hears so.

export interface Listed {
  id: string;
  title: string;
  changed: number; // ms since 1970; 0: not known
}

export interface Held {
  id: string;
  revision: string;
  text: string;
}

export type Saved =
  | { kind: 'saved'; revision: string }
  | { kind: 'other' } // another window or person wrote since
  | { kind: 'full' } // no room left
  | { kind: 'away' }; // the place cannot be reached

export interface Store {
  list(): Promise<Listed[]>;
  open(id: string): Promise<Held | null>;
  // `from`: the revision that the text grew from; null for a job that is new here.
  save(id: string, text: string, from: string | null): Promise<Saved>;
  remove(id: string): Promise<void>;
}

export function titleOf(text: string): string {
  try {
    const job = JSON.parse(text) as { title?: unknown };
    return typeof job.title === 'string' ? job.title : '';
  } catch {
    return '';
  }
}

export const newId = (): string => Array.from(crypto.getRandomValues(new Uint8Array(8)), (b) => b.toString(16).padStart(2, '0')).join('');
