// Jobs on this device. The look at the revision and the write are one transaction: two windows cannot both pass.
import { database, done, finished, type JobRow } from './database';
import { titleOf, type Held, type Listed, type Saved, type Store } from './store';

const isFull = (error: unknown): boolean => error instanceof DOMException && error.name === 'QuotaExceededError';

export class DeviceStore implements Store {
  async list(): Promise<Listed[]> {
    const rows = await done<JobRow[]>((await database()).transaction('jobs').objectStore('jobs').getAll());
    return rows.map((row) => ({ id: row.id, title: titleOf(row.text), changed: row.changed }));
  }

  async open(id: string): Promise<Held | null> {
    const row = await done<JobRow | undefined>((await database()).transaction('jobs').objectStore('jobs').get(id));
    return row ? { id, revision: String(row.revision), text: row.text } : null;
  }

  async save(id: string, text: string, from: string | null): Promise<Saved> {
    try {
      const transaction = (await database()).transaction('jobs', 'readwrite', { durability: 'strict' });
      const jobs = transaction.objectStore('jobs');
      const ended = finished(transaction);
      const row = await done<JobRow | undefined>(jobs.get(id));
      if ((row ? String(row.revision) : null) !== from) {
        await ended;
        return { kind: 'other' };
      }
      const revision = (row?.revision ?? 0) + 1;
      jobs.put({ id, revision, text, changed: Date.now() } satisfies JobRow);
      await ended;
      return { kind: 'saved', revision: String(revision) };
    } catch (error) {
      return { kind: isFull(error) ? 'full' : 'away' };
    }
  }

  async remove(id: string): Promise<void> {
    const transaction = (await database()).transaction('jobs', 'readwrite');
    const ended = finished(transaction);
    transaction.objectStore('jobs').delete(id);
    await ended;
  }
}
