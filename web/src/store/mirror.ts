// What this device knows of the jobs in a folder: each as it was last seen there, or as it was changed since without it.
import { database, done, finished } from './database';

export interface Mirrored {
  id: string;
  text: string;
  base: string | null; // the folder's revision that the text is, or grew from; null: the folder has never had it
  own: number; // how often it was changed without the folder; 0: it is what the folder has
  changed: number;
}

// The revision that the page sees: the folder's own, or one that no folder can have.
export const revisionOf = (row: Mirrored): string => (row.own === 0 ? (row.base ?? '') : `own-${row.own}-on-${row.base ?? 'none'}`);
export const isOwn = (revision: string | null): boolean => (revision ?? '').startsWith('own-');

export async function mirrored(id: string): Promise<Mirrored | null> {
  const row = await done<Mirrored | undefined>((await database()).transaction('mirror').objectStore('mirror').get(id));
  return row ?? null;
}

export async function allMirrored(): Promise<Mirrored[]> {
  return done<Mirrored[]>((await database()).transaction('mirror').objectStore('mirror').getAll());
}

// Puts what `make` gives of what is there, in one transaction; null: leaves it alone.
export async function remirror(id: string, make: (row: Mirrored | null) => Mirrored | null): Promise<Mirrored | null> {
  const transaction = (await database()).transaction('mirror', 'readwrite', { durability: 'strict' });
  const rows = transaction.objectStore('mirror');
  const ended = finished(transaction);
  const row = make((await done<Mirrored | undefined>(rows.get(id))) ?? null);
  if (row) rows.put(row);
  await ended;
  return row;
}

export async function forget(id: string): Promise<void> {
  const transaction = (await database()).transaction('mirror', 'readwrite');
  const ended = finished(transaction);
  transaction.objectStore('mirror').delete(id);
  await ended;
}
