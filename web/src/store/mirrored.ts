// The folder, with a mirror on this device: jobs are opened, changed and begun while the server is gone, and go to the folder
// when it is back. What changed there meanwhile is never written over: then a save hears "other", as between two windows.
import { allMirrored, forget, isOwn, mirrored, remirror, revisionOf, type Mirrored } from './mirror';
import { titleOf, type Held, type Listed, type Saved, type Store } from './store';

const isFull = (error: unknown): boolean => error instanceof DOMException && error.name === 'QuotaExceededError';
const heldOf = (row: Mirrored): Held => ({
  id: row.id, revision: revisionOf(row), text: row.text, ...(row.own > 0 ? { unsent: true } : {}),
});
const clean = (held: Held): Mirrored => ({ id: held.id, text: held.text, base: held.revision, own: 0, changed: Date.now() });

export class MirroredStore implements Store {
  constructor(private readonly folder: Store) {}

  async list(): Promise<Listed[]> {
    const rows = await allMirrored();
    let there: Listed[];
    try {
      there = await this.folder.list();
    } catch {
      return rows.map((row) => ({ id: row.id, title: titleOf(row.text), changed: row.changed }));
    }
    for (const row of rows) {
      if (row.own > 0) await this.send(row);
      else if (!there.some((one) => one.id === row.id)) await forget(row.id);
    }
    // Seen once, there for good: what has never been opened here must open without the server too.
    for (const one of there) {
      const row = rows.find((other) => other.id === one.id);
      if (!row || (row.own === 0 && row.changed < one.changed)) await this.open(one.id).catch(() => null);
    }
    return this.folder.list().catch(() => there);
  }

  async open(id: string): Promise<Held | null> {
    const row = await mirrored(id);
    if (row && row.own > 0) return heldOf(row);
    try {
      const held = await this.folder.open(id);
      if (held) await remirror(id, (now) => (now && now.own > 0 ? null : clean(held)));
      else if (row) await forget(id);
      return held;
    } catch (error) {
      if (row) return heldOf(row);
      throw error;
    }
  }

  async theirs(id: string, from: string | null): Promise<Held | null> {
    const row = await mirrored(id);
    // Another window of this device wrote without the folder.
    if (row && row.own > 0 && revisionOf(row) !== from) return heldOf(row);
    const held = await this.folder.open(id).catch(() => null);
    if (held) await remirror(id, () => clean(held));
    return held;
  }

  async save(id: string, text: string, from: string | null): Promise<Saved> {
    const row = await mirrored(id);
    if (row && row.own > 0 && revisionOf(row) !== from) return { kind: 'other' };
    // Sent already, by the list of jobs or by another window.
    if (row && row.own === 0 && row.base !== null && row.text === text && isOwn(from)) return { kind: 'saved', revision: row.base };
    const base = row && row.own > 0 ? row.base : from;
    const saved = await this.folder.save(id, text, base);
    try {
      if (saved.kind === 'saved') {
        await remirror(id, () => clean({ id, revision: saved.revision, text }));
        return saved;
      }
      return saved.kind === 'away' ? await this.keep(id, text, from, base) : saved;
    } catch (error) {
      if (saved.kind === 'saved') return saved; // in the folder, which is what counts
      return { kind: isFull(error) ? 'full' : 'away' };
    }
  }

  async remove(id: string): Promise<void> {
    const row = await mirrored(id);
    if (row === null || row.base !== null) await this.folder.remove(id);
    await forget(id);
  }

  private async keep(id: string, text: string, from: string | null, base: string | null): Promise<Saved> {
    let other = false;
    const kept = await remirror(id, (row) => {
      other = row !== null && revisionOf(row) !== from;
      if (other) return null;
      return { id, text, base, own: (row?.own ?? 0) + (row?.text === text && row.own > 0 ? 0 : 1), changed: Date.now() };
    });
    return kept && !other ? { kind: 'kept', revision: revisionOf(kept) } : { kind: 'other' };
  }

  private async send(row: Mirrored): Promise<void> {
    const saved = await this.folder.save(row.id, row.text, row.base);
    if (saved.kind !== 'saved') return; // changed there too: told when the job is opened
    await remirror(row.id, (now) => (now && revisionOf(now) === revisionOf(row) ? clean({ id: row.id, revision: saved.revision, text: row.text }) : null));
  }
}
