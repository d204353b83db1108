import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { MirroredStore } from '../src/store/mirrored';
import type { Held, Saved, Store } from '../src/store/store';

// A folder that can be taken away, changed by others, and that counts its revisions.
class Folder implements Store {
  away = false;
  rows = new Map<string, Held>();
  private n = 0;
  private there(): void {
    if (this.away) throw new TypeError('nobody answers');
  }
  list = async () => {
    this.there();
    return [...this.rows.values()].map((row) => ({ id: row.id, title: '', changed: 0 }));
  };
  open = async (id: string) => {
    this.there();
    return this.rows.get(id) ?? null;
  };
  theirs = (id: string) => this.open(id);
  async save(id: string, text: string, from: string | null): Promise<Saved> {
    if (this.away) return { kind: 'away' };
    if ((this.rows.get(id)?.revision ?? null) !== from) return { kind: 'other' };
    this.n += 1;
    this.rows.set(id, { id, text, revision: `r${this.n}` });
    return { kind: 'saved', revision: `r${this.n}` };
  }
  remove = async (id: string) => {
    this.there();
    this.rows.delete(id);
  };
}

let id = '';
let count = 0;
beforeEach(() => {
  count += 1;
  id = `job${count}`;
});
const revision = (saved: Saved): string => ('revision' in saved ? saved.revision : `none: ${saved.kind}`);

describe('a folder with its mirror', () => {
  it('opens, changes and begins jobs without the folder, and sends them when it is back', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    const first = revision(await store.save(id, 'one', null));
    folder.away = true;
    expect(await store.open(id)).toEqual({ id, revision: first, text: 'one' });
    const kept = await store.save(id, 'two', first);
    expect(kept.kind).toBe('kept');
    expect(await store.open(id)).toEqual({ id, revision: revision(kept), text: 'two', unsent: true });
    expect((await store.save(`${id}-new`, 'new', null)).kind).toBe('kept');
    expect((await store.list()).map((one) => one.id)).toEqual(expect.arrayContaining([id, `${id}-new`]));
    folder.away = false;
    await store.list();
    expect(folder.rows.get(id)?.text).toBe('two');
    expect(folder.rows.get(`${id}-new`)?.text).toBe('new');
    expect(await store.open(id)).toEqual(folder.rows.get(id));
  });
  it('asked again with the same text it keeps the revision, so that no window takes itself for another', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    const first = revision(await store.save(id, 'one', null));
    folder.away = true;
    const kept = revision(await store.save(id, 'two', first));
    expect(revision(await store.save(id, 'two', kept))).toBe(kept);
    expect(revision(await store.save(id, 'three', kept))).not.toBe(kept);
  });
  it('knows its own words again when the list has sent them', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    const first = revision(await store.save(id, 'one', null));
    folder.away = true;
    const kept = revision(await store.save(id, 'two', first));
    folder.away = false;
    await store.list();
    expect(await store.save(id, 'two', kept)).toEqual({ kind: 'saved', revision: folder.rows.get(id)?.revision });
  });
  it('lets neither win silently when the folder was changed meanwhile', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    const first = revision(await store.save(id, 'one', null));
    folder.away = true;
    const kept = revision(await store.save(id, 'mine', first));
    folder.away = false;
    await folder.save(id, 'theirs', first);
    expect(await store.save(id, 'mine', kept)).toEqual({ kind: 'other' });
    await store.list(); // sends what can be sent, and this cannot
    expect(folder.rows.get(id)?.text).toBe('theirs');
    expect((await store.open(id))?.text).toBe('mine');
    const theirs = await store.theirs(id, kept);
    expect(theirs?.text).toBe('theirs');
    expect((await store.save(id, 'mine after all', theirs?.revision ?? null)).kind).toBe('saved');
  });
  it('tells two windows apart that both write without the folder', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    const first = revision(await store.save(id, 'one', null));
    folder.away = true;
    expect((await store.save(id, 'a', first)).kind).toBe('kept');
    expect(await store.save(id, 'b', first)).toEqual({ kind: 'other' });
    expect((await store.theirs(id, first))?.text).toBe('a');
  });
  it('throws away only where the folder hears it', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    await store.save(id, 'one', null);
    folder.away = true;
    await expect(store.remove(id)).rejects.toThrow();
    expect((await store.open(id))?.text).toBe('one');
    folder.away = false;
    await store.remove(id);
    expect(await store.open(id)).toBeNull();
  });
  it('opens without the folder what was only ever listed', async () => {
    const folder = new Folder();
    const store = new MirroredStore(folder);
    await folder.save(id, 'elsewhere', null);
    await store.list();
    folder.away = true;
    expect((await store.open(id))?.text).toBe('elsewhere');
  });
});
