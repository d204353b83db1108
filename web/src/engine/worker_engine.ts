// The engine by WebAssembly in two workers: one that follows the keystrokes, one for what may take long.
import type { Plan } from '../generated/plan';
import { Bench } from './bench';
import type { Engine, Explained, Fault, PaperFile, Room, Rule, Seen, Status, Why } from './engine';
import { Latest } from './latest';
import type { Outcome } from './messages';
import { moduleBytes } from './parts';

const decoder = new TextDecoder();
const parsed = (bytes: Uint8Array): unknown => JSON.parse(decoder.decode(bytes));

function seenOf(outcome: Outcome): Seen {
  const status = outcome.status as Status;
  if (status >= 2) {
    const { faults } = parsed(outcome.json) as { faults: Fault[] };
    return { status, faults, plan: null, pictures: new Map() };
  }
  const pictures = new Map(outcome.documents.map((one) => [one.name, decoder.decode(one.bytes)]));
  return { status, faults: [], plan: parsed(outcome.json) as Plan, pictures };
}

export class WorkerEngine implements Engine {
  private bytes: Promise<Uint8Array> | null = null;
  private readonly module = (): Promise<Uint8Array> => {
    this.bytes ??= moduleBytes().catch((error: unknown) => {
      this.bytes = null; // asked for again next time: the network may be back
      throw error;
    });
    return this.bytes;
  };
  private readonly quick = new Bench(this.module);
  private readonly slow = new Bench(this.module);
  private readonly seeing = new Latest<{ job: string; room: Room }, Seen>(async ({ job, room }) => {
    const outcome = await this.quick.call('see', job, '', room);
    return outcome && seenOf(outcome);
  });

  see(job: string, room: Room): Promise<Seen | null> {
    return this.seeing.ask({ job, room });
  }

  async documents(job: string): Promise<PaperFile[] | null> {
    const outcome = await this.slow.call('documents', job);
    if (!outcome) return null;
    const plan: PaperFile = { name: 'plan.json', media: 'application/json', bytes: outcome.json };
    return outcome.status >= 2 ? [] : [...outcome.documents, plan];
  }

  cancelDocuments(): void {
    this.slow.cancel();
  }

  async why(job: string, mark: string, room: Room): Promise<Why> {
    const outcome = await this.quick.call('why', job, mark, room);
    if (!outcome || outcome.status >= 2) return { figures: [], picture: '' };
    const picture = outcome.documents[0];
    return {
      figures: (parsed(outcome.json) as { figures: Explained[] }).figures,
      picture: picture ? decoder.decode(picture.bytes) : '',
    };
  }

  async rules(job: string): Promise<Rule[]> {
    const outcome = await this.slow.call('rules', job);
    if (!outcome || outcome.status >= 2) return [];
    return (parsed(outcome.json) as { rules: Rule[] }).rules;
  }

  async words(): Promise<ReadonlyMap<string, string>> {
    const outcome = await this.quick.call('words', '');
    if (!outcome) return new Map();
    return new Map(Object.entries((parsed(outcome.json) as { texts: Record<string, string> }).texts));
  }

  async check(job: string): Promise<Seen | null> {
    const outcome = await this.slow.call('check', job);
    if (!outcome || outcome.status < 2) return null;
    return seenOf(outcome);
  }

  async schema(name: 'job' | 'plan'): Promise<unknown> {
    const outcome = await this.slow.call('schema', '', name);
    return outcome && parsed(outcome.json);
  }

  async version(): Promise<string> {
    const outcome = await this.quick.call('version', '');
    return outcome ? decoder.decode(outcome.text) : '';
  }
}
