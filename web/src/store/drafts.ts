// What was typed and is not yet saved. Written at once and synchronously, so that a tab that is killed between the key
// and the save loses nothing. Every window has its own; one whose window is gone is taken up by the next that opens the
// job, when it grew from the revision that is stored.
export interface Draft {
  from: string | null;
  text: string;
}
export interface Orphan extends Draft {
  key: string;
}

const kWindow = Array.from(crypto.getRandomValues(new Uint8Array(6)), (b) => b.toString(16).padStart(2, '0')).join('');
const kStart = 'lapwright.draft.';
const kLeft = 'lapwright.left.';
const kLong = 200; // ms that a page which is being left may take to let go of its lock

// A window that lives holds a lock by its name; the browser lets go of it whichever way the window ends.
const lockOf = (window: string): string => `lapwright.window.${window}`;

export function holdWindow(): void {
  void navigator.locks?.request(lockOf(kWindow), () => new Promise(() => undefined)).catch(() => undefined);
}

async function lives(window: string): Promise<boolean> {
  if (!navigator.locks) return false; // not to be known here: what was typed is rather offered twice than lost
  try {
    return await navigator.locks.request(lockOf(window), { signal: AbortSignal.timeout(kLong) }, () => false);
  } catch {
    return true;
  }
}

function read<T>(use: (kept: Storage) => T, otherwise: T): T {
  try {
    return use(localStorage);
  } catch {
    return otherwise; // full or forbidden: the save itself will say so
  }
}

const keysOf = (start: string): string[] =>
  read((kept) => Array.from({ length: kept.length }, (_, i) => kept.key(i) ?? '').filter((key) => key.startsWith(start)), []);

function draftAt(key: string): Draft | null {
  return read((kept) => {
    const draft = JSON.parse(kept.getItem(key) ?? 'null') as Draft | null;
    return typeof draft?.text === 'string' ? draft : null;
  }, null);
}

const drop = (key: string): void => read((kept) => kept.removeItem(key), undefined);

export const keepDraft = (id: string, from: string | null, text: string, window = kWindow): boolean =>
  read((kept) => {
    kept.setItem(`${kStart}${id}.${window}`, JSON.stringify({ from, text } satisfies Draft));
    return true;
  }, false);

export const draftOf = (id: string, window = kWindow): Draft | null => draftAt(`${kStart}${id}.${window}`);
export const dropDraft = (id: string): void => drop(`${kStart}${id}.${kWindow}`);

// Of this window, and of windows that are gone.
export async function orphansOf(id: string): Promise<Orphan[]> {
  const start = `${kStart}${id}.`;
  const all = await Promise.all(
    keysOf(start).map(async (key) => {
      const window = key.slice(start.length);
      if (window !== kWindow && (await lives(window))) return null;
      const draft = draftAt(key);
      return draft && { ...draft, key };
    }),
  );
  return all.filter((one) => one !== null);
}

export const isOwn = (orphan: Orphan): boolean => orphan.key.endsWith(`.${kWindow}`);
export const dropOrphan = (orphan: Orphan): void => drop(orphan.key);

// A draft that grew from a revision that is no longer the last is laid aside: it is offered, and never wins silently.
export function layAside(id: string, orphan: Orphan): void {
  const key = `${kLeft}${id}.${orphan.key.slice(orphan.key.lastIndexOf('.') + 1)}`;
  const put = read((kept) => {
    kept.setItem(key, orphan.text);
    return true;
  }, false);
  if (put) drop(orphan.key); // else it stays where it was
}

const firstLeft = (id: string): string | undefined => keysOf(`${kLeft}${id}.`).sort()[0];

export function leftOf(id: string): string | null {
  const key = firstLeft(id);
  return key === undefined ? null : read((kept) => kept.getItem(key), null);
}

export function dropLeft(id: string): void {
  const key = firstLeft(id);
  if (key !== undefined) drop(key);
}
