// One open job: its states, what the engine says of it, and where it is kept. Screens read it and ask it to change.
import type { Engine, Room, Seen } from './engine/engine';
import type { Job } from './generated/job';
import { jobOf, textOf } from './job/files';
import { History } from './job/history';
import { withValue } from './job/path';
import { dropLeft, dropOrphan, isOwn, layAside, leftOf, orphansOf } from './store/drafts';
import { Saver, type SaveState } from './store/saver';
import type { Held, Store } from './store/store';
import type { Windows } from './store/windows';

const kRest = 160; // ms after the last key
const isOfWater = (finding: { rule: string }): boolean => finding.rule.startsWith('check.');

// With how the job before it stood against water.
function withWater(seen: Seen, before: Seen | null): Seen {
  const { plan } = seen;
  if (!plan || !before?.plan?.check) return seen;
  const findings = [...(plan.findings ?? []), ...(before.plan.findings ?? []).filter(isOfWater)];
  return { ...seen, plan: { ...plan, check: before.plan.check, findings } };
}

export class Session {
  // What the engine said last, and of the last job that could be read: a picture stays while a number is half typed.
  seen: Seen | null = null;
  readable: Seen | null = null;
  readableText = '';
  readableNearer = 1; // how near its pictures were drawn for
  trouble = '';
  room: Room = { width: 103, height: 90 };

  private nearer = 1;

  // How the cutting of that job stands, for the ladder.
  cut: { job: string; state: 'filled' | 'doubt' } | null = null;

  // As it was when this window opened it.
  readonly opened: string;

  // What was typed elsewhere, never saved, and overtaken.
  left: string | null = null;

  private readonly history: History<Job>;
  private readonly saver: Saver;
  private readonly heard = new Set<() => void>();
  private readonly stopListening: () => void;
  private readonly leave = (): void => void this.saver.flush();
  private readonly hide = (): void => {
    if (document.visibilityState === 'hidden') void this.saver.flush();
  };

  constructor(
    readonly id: string,
    job: Job,
    revision: string | null,
    readonly store: Store,
    windows: Windows,
    readonly engine: Engine,
  ) {
    this.history = new History(job);
    this.opened = textOf(job);
    this.saver = new Saver(store, windows, id, revision, () => this.tell());
    this.stopListening = windows.listen((word) => {
      if (word.id === id) this.saver.heard(word.revision);
    });
    addEventListener('pagehide', this.leave);
    document.addEventListener('visibilitychange', this.hide);
    void this.look();
  }

  // The job as kept, or as typed since, if it was typed on top of what is kept.
  static async start(held: Held, store: Store, windows: Windows, engine: Engine): Promise<Session | null> {
    const orphans = await orphansOf(held.id);
    const taken = orphans.find((one) => one.from === held.revision && jobOf(one.text));
    const typed = taken ? jobOf(taken.text) : null;
    const job = typed ?? jobOf(held.text);
    if (!job) return null;
    const session = new Session(held.id, job, held.revision, store, windows, engine);
    for (const one of orphans) {
      if (one === taken) continue;
      if (one.text === held.text) dropOrphan(one);
      else layAside(held.id, one);
    }
    if (taken && typed) {
      session.saver.put(textOf(typed));
      if (!isOwn(taken)) dropOrphan(taken);
    }
    session.left = leftOf(held.id);
    return session;
  }

  get job(): Job {
    return this.history.now;
  }
  get text(): string {
    return textOf(this.job);
  }
  get saving(): SaveState {
    return this.saver.state;
  }
  get canUndo(): boolean {
    return this.history.canUndo;
  }
  get canRedo(): boolean {
    return this.history.canRedo;
  }

  // `label` names what is changed: keystrokes at one field are one step of undo.
  change(job: Job, label = ''): void {
    if (job === this.history.now) return;
    this.history.put(job, label, performance.now());
    this.changed();
  }
  set(path: string, value: unknown, label = path): void {
    this.change(withValue(this.job, path, value), label);
  }
  undo(): void {
    this.history.undo();
    this.changed();
  }
  redo(): void {
    this.history.redo();
    this.changed();
  }

  // After another window wrote: go on from theirs; what was typed here is one undo away.
  async takeTheirs(): Promise<void> {
    const held = await this.store.open(this.id);
    const job = held && jobOf(held.text);
    if (!held || !job) return;
    this.history.put(job, '', performance.now());
    this.saver.restart(held.revision);
    this.tell();
    void this.look();
  }
  // Or keep what is here, on top of theirs.
  async keepMine(): Promise<void> {
    const held = await this.store.open(this.id);
    if (!held) return;
    this.saver.restart(held.revision);
    this.saver.put(this.text);
    await this.saver.flush();
  }

  // Bring back what was laid aside; undo takes it away again.
  takeLeft(): void {
    const job = this.left === null ? null : jobOf(this.left);
    if (job) this.change(job);
    this.dropLeft();
  }
  dropLeft(): void {
    dropLeft(this.id);
    this.left = leftOf(this.id);
    this.tell();
  }

  flush(): Promise<void> {
    return this.saver.flush();
  }

  listen(heard: () => void): () => void {
    this.heard.add(heard);
    return () => this.heard.delete(heard);
  }

  end(): void {
    this.ended = true;
    clearTimeout(this.resting);
    void this.saver.flush();
    this.saver.stop();
    this.stopListening();
    removeEventListener('pagehide', this.leave);
    document.removeEventListener('visibilitychange', this.hide);
  }

  private changed(): void {
    this.saver.put(this.text);
    this.tell();
    void this.look();
  }

  private tell(): void {
    for (const heard of this.heard) heard();
  }

  // What the screen has for the picture; another size is another picture.
  giveRoom(room: Room): void {
    if (Math.abs(room.width - this.room.width) < 1 && Math.abs(room.height - this.room.height) < 1) return;
    this.room = room;
    void this.look();
  }

  // The picture in hand is looked at so many times nearer.
  lookNearer(nearer: number): void {
    if (nearer === this.nearer) return;
    this.nearer = nearer;
    void this.look();
  }

  // Between a change and what the engine says of it.
  get looking(): boolean {
    return this.looked < this.looks;
  }
  private looks = 0;
  private resting: ReturnType<typeof setTimeout> | undefined;
  private ended = false;
  private looked = 0;
  private shown = 0; // the latest look whose answer is shown

  // The picture first; how it stands against water when nobody types. Until then that of the job before it stays.
  private async look(): Promise<void> {
    this.looks += 1;
    const { looks } = this;
    clearTimeout(this.resting);
    await this.see(looks, true);
    if (looks !== this.looks || this.ended) return;
    this.resting = setTimeout(() => void this.see(looks, false), this.readable?.plan?.check ? kRest : 0);
  }

  private async see(looks: number, quick: boolean): Promise<void> {
    const text = this.text;
    const { nearer } = this;
    const { width, height } = this.room;
    try {
      const seen = await this.engine.see(text, { width: width * nearer, height: height * nearer }, quick);
      if (!seen || looks < this.shown) return; // a later look tells, or has told: the two looks run side by side
      this.shown = looks;
      if (!quick || !seen.plan) this.looked = looks;
      this.seen = quick ? withWater(seen, this.readable) : seen;
      this.trouble = '';
      if (seen.plan) {
        this.readable = this.seen;
        this.readableText = text;
        this.readableNearer = nearer;
      }
    } catch (error) {
      this.trouble = String(error);
      this.looked = looks;
    }
    this.tell();
  }
}
