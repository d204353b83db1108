// The folder, with a copy of each of its jobs on this device: the page goes on when the server is gone, and what was
// changed meanwhile goes to the folder when it is back.
import { database, done, finished } from './database';
import { draftOf, keepDraft } from './drafts';
import { titleOf, type Held, type Listed, type Saved, type Store } from './store';

interface Copy {
  text: string;
  revision: string; // of the folder; empty: the folder has not seen this job
  waiting: boolean; // the text is newer than the folder's
  changed: number;
}

const kStart = 'copy:';
const kWindow = 'copy'; // of drafts that no window typed

async function copyOf(id: string): Promise<Copy | null> {
  const row = await done<Copy | undefined>((await database()).transaction('small').objectStore('small').get(kStart + id));
  return row ?? null;
}

async function write(use: (small: IDBObjectStore) => void): Promise<void> {
  try {
    const transaction = (await database()).transaction('small', 'readwrite');
    const ended = finished(transaction);
    use(transaction.objectStore('small'));
    await ended;
  } catch {
    // The copy is a help, not the job: without room for it the folder still has the job.
  }
}

const keepCopy = (id: string, text: string, revision: string, waiting: boolean): Promise<void> =>
  write((small) => small.put({ text, revision, waiting, changed: Date.now() } satisfies Copy, kStart + id));
const dropCopy = (id: string): Promise<void> => write((small) => small.delete(kStart + id));

async function copies(): Promise<[string, Copy][]> {
  const small = (await database()).transaction('small').objectStore('small');
  const range = IDBKeyRange.bound(kStart, `${kStart}\uffff`);
  const [keys, rows] = await Promise.all([done(small.getAllKeys(range)), done<Copy[]>(small.getAll(range))]);
  return rows.map((row, i) => [String(keys[i]).slice(kStart.length), row]);
}

export class MirroredFolder implements Store {
  constructor(private readonly folder: Store) {}

  async list(): Promise<Listed[]> {
    const own = await copies().catch(() => []);
    const row = ([id, copy]: [string, Copy]): Listed => ({ id, title: titleOf(copy.text), changed: copy.changed });
    try {
      const there = await this.folder.list();
      const unseen = own.filter(([id, copy]) => copy.revision === '' && !there.some((one) => one.id === id));
      return [...there, ...unseen.map(row)];
    } catch {
      return own.map(row);
    }
  }

  async open(id: string): Promise<Held | null> {
    const copy = await copyOf(id).catch(() => null);
    try {
      const there = await this.folder.open(id);
      if (copy?.waiting) {
        // A draft on the revision that it grew from: taken up where that is the folder's still, told of where not.
        if (draftOf(id)?.from !== copy.revision) keepDraft(id, copy.revision, copy.text, kWindow);
        if (!there && copy.revision === '') return { id, revision: '', text: copy.text };
      }
      if (there) await keepCopy(id, there.text, there.revision, false);
      else await dropCopy(id);
      return there;
    } catch {
      return copy && { id, revision: copy.revision, text: copy.text };
    }
  }

  async save(id: string, text: string, from: string | null): Promise<Saved> {
    const saved = await this.folder.save(id, text, from);
    if (saved.kind === 'saved') await keepCopy(id, text, saved.revision, false);
    if (saved.kind === 'away') await keepCopy(id, text, from ?? '', true);
    return saved;
  }

  async remove(id: string): Promise<void> {
    await this.folder.remove(id);
    await dropCopy(id);
  }
}
