import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { draftOf, orphansOf } from '../src/store/drafts';
import { MirroredFolder } from '../src/store/mirror';
import { storage } from './storage';
import type { Held, Saved, Store } from '../src/store/store';

// A folder whose server can be killed.
class Folder implements Store {
  alive = true;
  jobs = new Map<string, Held>();
  private reach(): void {
    if (!this.alive) throw new Error('away');
  }
  async list() {
    this.reach();
    return [...this.jobs.values()].map((one) => ({ id: one.id, title: '', changed: 0 }));
  }
  async open(id: string) {
    this.reach();
    return this.jobs.get(id) ?? null;
  }
  async save(id: string, text: string, from: string | null): Promise<Saved> {
    if (!this.alive) return { kind: 'away' };
    const is = this.jobs.get(id);
    if ((is?.revision ?? '') !== (from ?? '')) return { kind: 'other' };
    const revision = `r${Number((is?.revision ?? 'r0').slice(1)) + 1}`;
    this.jobs.set(id, { id, revision, text });
    return { kind: 'saved', revision };
  }
  async remove(id: string) {
    this.reach();
    this.jobs.delete(id);
  }
}

beforeEach(() => {
  vi.stubGlobal('localStorage', storage());
  vi.stubGlobal('navigator', {});
});

describe('a folder whose server is killed', () => {
  it('goes on from the copy on the device, and from the folder when it is back', async () => {
    const folder = new Folder();
    const store = new MirroredFolder(folder);
    await store.save('a', 'one', null);
    folder.alive = false;
    expect(await store.open('a')).toEqual({ id: 'a', revision: 'r1', text: 'one' });
    expect(await store.save('a', 'two', 'r1')).toEqual({ kind: 'away' });
    expect((await store.open('a'))?.text).toBe('two');
    expect((await store.list()).map((one) => one.id)).toContain('a');
    folder.alive = true;
    // The folder's own, with what was changed meanwhile as a draft on it.
    expect((await store.open('a'))?.text).toBe('one');
    expect(draftOf('a', 'copy')).toEqual({ from: 'r1', text: 'two' });
    expect((await orphansOf('a')).map((one) => one.text)).toEqual(['two']);
  });
  it('keeps a job that was begun while it was away', async () => {
    const folder = new Folder();
    const store = new MirroredFolder(folder);
    folder.alive = false;
    await store.save('new', 'text', null);
    folder.alive = true;
    const held = await store.open('new');
    expect(held).toEqual({ id: 'new', revision: '', text: 'text' });
    expect((await store.list()).map((one) => one.id)).toContain('new');
    expect((await store.save('new', 'text', '')).kind).toBe('saved');
  });
  it('drops the copy of what was thrown away elsewhere', async () => {
    const folder = new Folder();
    const store = new MirroredFolder(folder);
    await store.save('gone', 'text', null);
    folder.jobs.clear();
    expect(await store.open('gone')).toBeNull();
    folder.alive = false;
    expect(await store.open('gone')).toBeNull();
  });
});
