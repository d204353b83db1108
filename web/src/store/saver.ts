// Saves a job as it is typed: a draft at once, the whole job a moment later, one save at a time, the newest last.
import { dropDraft, keepDraft } from './drafts';
import type { Store } from './store';
import type { Windows } from './windows';

export type SaveState = 'saved' | 'saving' | 'other' | 'full' | 'away';

const kPause = 250;
const kAgain = 3000;

export class Saver {
  state: SaveState = 'saved';
  private wanted: string | null = null;
  private timer: ReturnType<typeof setTimeout> | null = null;
  private running: Promise<void> | null = null;

  constructor(
    private readonly store: Store,
    private readonly windows: Windows,
    readonly id: string,
    private revision: string | null,
    private readonly changed: () => void,
  ) {}

  get from(): string | null {
    return this.revision;
  }

  put(text: string): void {
    this.wanted = text;
    keepDraft(this.id, this.revision, text);
    if (this.state === 'other') return; // until the person has chosen
    this.become('saving');
    this.later(kPause);
  }

  // Now: when the page is left.
  async flush(): Promise<void> {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
    if (this.running) await this.running;
    if (this.wanted === null || this.state === 'other') return;
    this.running = this.save(this.wanted);
    await this.running;
    this.running = null;
    if (this.wanted !== null && this.state === 'saving') await this.flush();
  }

  // Another window wrote: nothing is saved until the person chooses.
  heard(revision: string): void {
    if (revision !== this.revision) this.become('other');
  }

  // After the person chose to go on from what the other wrote.
  restart(revision: string): void {
    this.revision = revision;
    this.wanted = null;
    dropDraft(this.id);
    this.become('saved');
  }

  stop(): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
  }

  private later(pause: number): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.flush(), pause);
  }

  private async save(text: string): Promise<void> {
    const result = await this.store.save(this.id, text, this.revision);
    if (result.kind === 'saved') {
      this.revision = result.revision;
      if (this.wanted === text) {
        this.wanted = null;
        dropDraft(this.id);
        this.become('saved');
      } else if (this.wanted !== null) {
        keepDraft(this.id, this.revision, this.wanted);
      }
      this.windows.tell({ id: this.id, revision: result.revision });
      return;
    }
    this.become(result.kind);
    if (result.kind !== 'other') this.later(kAgain);
  }

  private become(state: SaveState): void {
    if (this.state === state) return;
    this.state = state;
    this.changed();
  }
}
