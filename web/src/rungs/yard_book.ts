// The yard as the page holds it: the one kept on this device, or the built-in one until the first change of one's own.
import demo from '../../../data/demo/yard/yard.json';
import type { Engine, Fault } from '../engine/engine';
import type { Yard } from '../generated/yard';
import { History } from '../job/history';
import { Windows } from '../store/windows';
import { DeviceYard, type YardStore } from '../store/yard';

export type { Yard };
export type YardState = 'loading' | 'saved' | 'saving' | 'away';

const kWord = '@yard'; // no job has such an id
const textOfYard = (yard: Yard): string => `${JSON.stringify(yard, null, 2)}\n`;

function objectOf(text: string): Yard | null {
  try {
    const yard: unknown = JSON.parse(text);
    return yard !== null && typeof yard === 'object' && !Array.isArray(yard) ? (yard as Yard) : null;
  } catch {
    return null;
  }
}

export class YardBook {
  state: YardState = 'loading';
  own = false; // not the built-in one
  faults: Fault[] = [];
  private history: History<Yard | null> = new History<Yard | null>(null);
  private builtIn: Yard | null = null;
  private readonly heard = new Set<() => void>();
  private looked = 0;

  constructor(
    private readonly engine: Engine,
    private readonly store: YardStore,
    private readonly windows: Windows,
  ) {
    windows.listen((word) => {
      if (word.id === kWord) void this.open();
    });
    void this.open();
  }

  // Null while it is not known yet.
  get yard(): Yard | null {
    return this.history.now;
  }
  get text(): string {
    return this.yard ? textOfYard(this.yard) : '';
  }
  get invented(): boolean {
    return this.yard?.prices_are === 'invented';
  }
  get canUndo(): boolean {
    return this.history.canUndo;
  }

  put(yard: Yard, label = ''): void {
    this.history.put(yard, label, performance.now());
    this.own = true;
    void this.keep();
  }
  undo(): void {
    this.history.undo();
    void this.keep();
  }
  // Back to the built-in one; undo brings one's own back.
  async restore(): Promise<void> {
    const built = await this.made();
    this.history.put(built, '', performance.now());
    this.own = false;
    void this.keep();
  }
  // A yard file; the faults of one that cannot be read, and nothing changes.
  async take(text: string): Promise<Fault[]> {
    const answer = await this.engine.readYard(text);
    if (answer.value === null) return answer.faults;
    const yard = objectOf(answer.value);
    if (yard) this.put(yard);
    return [];
  }

  listen(heard: () => void): () => void {
    this.heard.add(heard);
    return () => this.heard.delete(heard);
  }

  // The engine's own widths and lengths, and invented prices for everything else.
  private async made(): Promise<Yard> {
    if (this.builtIn) return this.builtIn;
    const answer = await this.engine.readYard('');
    const { rolls, title } = objectOf(answer.value ?? '') ?? {};
    const example = demo as unknown as Yard;
    this.builtIn = { ...example, title: title ?? example.title ?? '', rolls: rolls ?? example.rolls, prices_are: 'invented' };
    return this.builtIn;
  }

  private async open(): Promise<void> {
    const held = await this.store.open().catch(() => null);
    const mine = held === null ? null : objectOf(held);
    this.history = new History<Yard | null>(mine ?? (await this.made()));
    this.own = mine !== null;
    this.state = 'saved';
    this.tell();
    await this.look();
  }

  private async keep(): Promise<void> {
    this.state = 'saving';
    this.tell();
    const { text, own } = this;
    void this.look();
    const kept = own ? await this.store.save(text) : await this.store.forget();
    if (text !== this.text) return; // a later one is under way
    this.state = kept ? 'saved' : 'away';
    if (kept) this.windows.tell({ id: kWord, revision: '' });
    this.tell();
  }

  private async look(): Promise<void> {
    this.looked += 1;
    const mine = this.looked;
    const answer = await this.engine.readYard(this.text).catch(() => null);
    if (mine !== this.looked || !answer) return;
    this.faults = answer.faults;
    this.tell();
  }

  private tell(): void {
    for (const heard of this.heard) heard();
  }
}

const books = new WeakMap<Engine, YardBook>();

export function yardBook(engine: Engine): YardBook {
  let book = books.get(engine);
  if (!book) {
    book = new YardBook(engine, new DeviceYard(), new Windows());
    books.set(engine, book);
  }
  return book;
}
