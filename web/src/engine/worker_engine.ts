// The engine by WebAssembly in two workers: one that follows the keystrokes, one for what may take long.
import type { Plan } from '../generated/plan';
import { Bench } from './bench';
import type {
  Answer, Compared, Difference, Engine, Explained, Fault, PaperFile, PaperSize, PlanAsk, Planned, Planning, Room, Rule, Seen, Status, Why,
} from './engine';
import { Latest } from './latest';
import type { Outcome } from './messages';
import { moduleBytes } from './parts';

const decoder = new TextDecoder();
const parsed = (bytes: Uint8Array): unknown => JSON.parse(decoder.decode(bytes));

const faultsOf = (outcome: Outcome): Fault[] =>
  outcome.status < 2 ? [] : (parsed(outcome.json) as { faults: Fault[] }).faults;

// Pictures of rolls and of pages are named by what they show; every other document is a file to hand over.
function plannedOf(outcome: Outcome): Planned {
  const rolls = new Map<string, string>();
  const pages = new Map<string, string[]>();
  const papers: PaperFile[] = [];
  for (const one of outcome.documents) {
    const [kind, stem = ''] = one.name.split('/');
    if (kind === 'roll') rolls.set(stem, decoder.decode(one.bytes));
    else if (kind === 'page') pages.set(stem, [...(pages.get(stem) ?? []), decoder.decode(one.bytes)]);
    else papers.push(one);
  }
  const faults = faultsOf(outcome);
  if (faults.length === 0) papers.push({ name: 'plan.json', media: 'application/json', bytes: outcome.json });
  return {
    status: outcome.status as Status,
    faults,
    plan: faults.length > 0 ? null : (parsed(outcome.json) as Plan),
    rolls,
    papers,
    pages,
    yardAfter: outcome.yard ? decoder.decode(outcome.yard) : '',
  };
}

function seenOf(outcome: Outcome): Seen {
  const status = outcome.status as Status;
  if (status >= 2) {
    return { status, faults: faultsOf(outcome), plan: null, pictures: new Map() };
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
  // Of its own, so that nothing waits for a cutting list and a cancelled one takes nothing else along.
  private readonly patient = new Bench(this.module);
  private planning: Planning | null = null;
  private readonly seeing = new Latest<{ job: string; room: Room; quick: boolean }, Seen>(async (ask) => {
    const outcome = await this.quick.call({ call: 'see', ...ask });
    return outcome && seenOf(outcome);
  });

  see(job: string, room: Room, quick = false): Promise<Seen | null> {
    return this.seeing.ask({ job, room, quick });
  }

  async glance(job: string, room: Room): Promise<Seen | null> {
    const outcome = await this.slow.call({ call: 'see', job, room });
    return outcome && seenOf(outcome);
  }

  plan(ask: PlanAsk, heard?: (share: number, whole: boolean) => void): Planning {
    this.cancelPlan();
    const going = this.patient.begin(
      {
        call: 'plan',
        job: ask.job,
        yard: ask.yard,
        slices: {
          effort: ask.effort,
          documents: ask.papers !== undefined,
          pages: ask.papers?.pages ?? false,
          only: ask.papers?.only ?? '',
          paper: ask.papers?.size ?? '',
          rolls: ask.rolls ?? 0,
        },
      },
      heard,
    );
    const planning: Planning = {
      planned: going.outcome
        .then((outcome) => outcome && plannedOf(outcome))
        .finally(() => {
          if (this.planning === planning) this.planning = null;
        }),
      stop: going.stop,
    };
    this.planning = planning;
    return planning;
  }

  cancelPlan(): void {
    if (!this.planning) return;
    this.planning = null;
    this.patient.cancel();
  }

  async compare(a: string, b: string, yard: string): Promise<Compared | null> {
    const outcome = await this.slow.call({ call: 'compare', job: a, name: b, yard });
    if (!outcome) return null;
    const faults = faultsOf(outcome);
    if (faults.length > 0) return { faults, differences: [], papers: [] };
    return { faults, differences: (parsed(outcome.json) as { differences: Difference[] }).differences, papers: outcome.documents };
  }

  async offer(words: string, yard: string): Promise<Answer<string>> {
    const outcome = await this.slow.call({ call: 'offer', name: words, yard });
    if (!outcome) return { faults: [], value: '' };
    return outcome.status >= 2 ? { faults: faultsOf(outcome), value: null } : { faults: [], value: decoder.decode(outcome.text) };
  }

  async form(job: string, size: PaperSize): Promise<PaperFile | null> {
    const outcome = await this.slow.call({ call: 'form', job, name: size });
    return outcome?.documents[0] ?? null;
  }

  async readYard(yard: string): Promise<Answer<string>> {
    const outcome = await this.quick.call({ call: 'yard', yard });
    if (!outcome) return { faults: [], value: '' };
    return outcome.status >= 2 ? { faults: faultsOf(outcome), value: null } : { faults: [], value: decoder.decode(outcome.json) };
  }

  async why(job: string, mark: string, room: Room): Promise<Why> {
    const outcome = await this.quick.call({ call: 'why', job, name: mark, room });
    if (!outcome || outcome.status >= 2) return { figures: [], picture: '' };
    const picture = outcome.documents[0];
    return {
      figures: (parsed(outcome.json) as { figures: Explained[] }).figures,
      picture: picture ? decoder.decode(picture.bytes) : '',
    };
  }

  async rules(job: string): Promise<Rule[]> {
    const outcome = await this.slow.call({ call: 'rules', job });
    if (!outcome || outcome.status >= 2) return [];
    return (parsed(outcome.json) as { rules: Rule[] }).rules;
  }

  async words(): Promise<ReadonlyMap<string, string>> {
    const outcome = await this.quick.call({ call: 'words' });
    if (!outcome) return new Map();
    return new Map(Object.entries((parsed(outcome.json) as { texts: Record<string, string> }).texts));
  }

  async check(job: string): Promise<Seen | null> {
    const outcome = await this.slow.call({ call: 'check', job });
    if (!outcome || outcome.status < 2) return null;
    return seenOf(outcome);
  }

  async odds(job: string): Promise<unknown[]> {
    const outcome = await this.slow.call({ call: 'odds', job });
    if (!outcome || outcome.status >= 2) return [];
    return (parsed(outcome.json) as { odds?: unknown[] }).odds ?? [];
  }

  async schema(name: 'job' | 'plan' | 'yard'): Promise<unknown> {
    const outcome = await this.slow.call({ call: 'schema', name });
    return outcome && parsed(outcome.json);
  }

  async version(): Promise<string> {
    const outcome = await this.quick.call({ call: 'version' });
    return outcome ? decoder.decode(outcome.text) : '';
  }
}
