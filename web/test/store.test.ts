import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { Latest } from '../src/engine/latest';
import { draftOf, dropLeft, dropOrphan, keepDraft, layAside, leftOf, orphansOf } from '../src/store/drafts';
import { DeviceStore } from '../src/store/device';
import { Saver } from '../src/store/saver';
import type { Saved, Store } from '../src/store/store';
import { Windows } from '../src/store/windows';
import { storage } from './storage';

beforeEach(() => {
  vi.stubGlobal('localStorage', storage());
  vi.stubGlobal('navigator', {});
});

describe('the device', () => {
  const store = new DeviceStore();
  it('keeps a job whole and gives each save a revision', async () => {
    const first = await store.save('a', '{"title":"one"}', null);
    expect(first).toEqual({ kind: 'saved', revision: '1' });
    expect(await store.save('a', '{"title":"two"}', '1')).toEqual({ kind: 'saved', revision: '2' });
    expect(await store.open('a')).toEqual({ id: 'a', revision: '2', text: '{"title":"two"}' });
    expect((await store.list()).map((one) => one.title)).toContain('two');
  });
  it('writes nothing on a revision that is not the last', async () => {
    await store.save('b', '1', null);
    expect(await store.save('b', '2', null)).toEqual({ kind: 'other' });
    expect(await store.save('b', '2', '7')).toEqual({ kind: 'other' });
    expect((await store.open('b'))?.text).toBe('1');
  });
  it('lets one of two saves at once win, never both', async () => {
    await store.save('c', '0', null);
    const both = await Promise.all([store.save('c', '1', '1'), store.save('c', '2', '1')]);
    expect(both.map((one) => one.kind).sort()).toEqual(['other', 'saved']);
  });
  it('forgets what was thrown away', async () => {
    await store.save('d', '0', null);
    await store.remove('d');
    expect(await store.open('d')).toBeNull();
  });
});

// A place to save that answers when it is told to.
class Slow implements Store {
  texts: string[] = [];
  answers: ((saved: Saved) => void)[] = [];
  list = () => Promise.resolve([]);
  open = () => Promise.resolve(null);
  remove = () => Promise.resolve();
  save(_: string, text: string): Promise<Saved> {
    this.texts.push(text);
    return new Promise((done) => this.answers.push(done));
  }
}

describe('saving as one types', () => {
  it('keeps a draft at once and drops it once saved', async () => {
    const store = new Slow();
    const saver = new Saver(store, new Windows(), 'x', '1', () => undefined);
    saver.put('a');
    expect(draftOf('x')).toEqual({ from: '1', text: 'a' });
    const flushed = saver.flush();
    await vi.waitFor(() => expect(store.answers).toHaveLength(1));
    store.answers[0]?.({ kind: 'saved', revision: '2' });
    await flushed;
    expect(saver.state).toBe('saved');
    expect(draftOf('x')).toBeNull();
  });
  it('saves what was typed meanwhile after what is being saved, on its revision', async () => {
    const store = new Slow();
    const saver = new Saver(store, new Windows(), 'x', '1', () => undefined);
    saver.put('a');
    const flushed = saver.flush();
    await vi.waitFor(() => expect(store.answers).toHaveLength(1));
    saver.put('b');
    store.answers[0]?.({ kind: 'saved', revision: '2' });
    await vi.waitFor(() => expect(store.answers).toHaveLength(2));
    expect(draftOf('x')).toEqual({ from: '2', text: 'b' });
    store.answers[1]?.({ kind: 'saved', revision: '3' });
    await flushed;
    expect(store.texts).toEqual(['a', 'b']);
    expect(saver.from).toBe('3');
  });
  it('stops when another wrote, and keeps the draft', async () => {
    const store = new Slow();
    const saver = new Saver(store, new Windows(), 'x', '1', () => undefined);
    saver.put('a');
    const flushed = saver.flush();
    await vi.waitFor(() => expect(store.answers).toHaveLength(1));
    store.answers[0]?.({ kind: 'other' });
    await flushed;
    saver.put('b');
    await saver.flush();
    expect(saver.state).toBe('other');
    expect(store.texts).toEqual(['a']);
    expect(draftOf('x')?.text).toBe('b');
  });
  it('does without drafts where they are forbidden', () => {
    vi.stubGlobal('localStorage', { setItem: () => { throw new Error('no'); } });
    expect(keepDraft('x', null, 'a')).toBe(false);
  });
});

// Locks as a browser has them: those of windows that live are held for good.
const lockedBy = (...windows: string[]) => ({
  locks: {
    request: (name: string, { signal }: { signal: AbortSignal }, use: () => boolean) =>
      windows.some((one) => name.endsWith(one))
        ? new Promise((_, refuse) => signal.addEventListener('abort', () => refuse(new Error('aborted'))))
        : Promise.resolve(use()),
  },
});

describe('drafts of several windows', () => {
  it('stand beside each other, and only those of windows that are gone are taken up', async () => {
    vi.stubGlobal('navigator', lockedBy('living'));
    keepDraft('x', '1', 'by the living', 'living');
    keepDraft('x', '1', 'by the dead', 'dead');
    keepDraft('xy', '1', 'of another job', 'dead');
    expect((await orphansOf('x')).map((one) => one.text)).toEqual(['by the dead']);
    expect(draftOf('x', 'living')?.text).toBe('by the living');
  });
  it('are laid aside one by one and offered one by one', async () => {
    vi.stubGlobal('navigator', lockedBy());
    keepDraft('x', '1', 'a', 'one');
    keepDraft('x', '1', 'b', 'two');
    for (const one of await orphansOf('x')) layAside('x', one);
    expect(await orphansOf('x')).toEqual([]);
    expect(leftOf('x')).toBe('a');
    dropLeft('x');
    expect(leftOf('x')).toBe('b');
    dropLeft('x');
    expect(leftOf('x')).toBeNull();
  });
  it('are gone when they are taken', async () => {
    vi.stubGlobal('navigator', lockedBy());
    keepDraft('x', '1', 'a', 'one');
    for (const one of await orphansOf('x')) dropOrphan(one);
    expect(await orphansOf('x')).toEqual([]);
  });
});

describe('the latest wins', () => {
  it('runs one at a time and skips what was overtaken', async () => {
    const ran: number[] = [];
    const latest = new Latest<number, number>(async (n) => {
      ran.push(n);
      await new Promise((done) => setTimeout(done, 5));
      return n;
    });
    expect(await Promise.all([1, 2, 3, 4].map((n) => latest.ask(n)))).toEqual([1, null, null, 4]);
    expect(ran).toEqual([1, 4]);
  });
  it('goes on after a failure', async () => {
    const latest = new Latest<number, number>(async (n) => {
      if (n === 1) throw new Error('once');
      return n;
    });
    await expect(latest.ask(1)).rejects.toThrow('once');
    expect(await latest.ask(2)).toBe(2);
  });
});
