// The engine in its own thread. A planning goes in slices, so that it can be stopped with what it has; any other call is
// one piece of work, and to cancel one the page ends the worker and starts another.
import { loadEngine } from '../../../scripts/engine.mjs';
import type { Call, FromWorker, Outcome, Slices, ToWorker } from './messages';

type Loaded = Awaited<ReturnType<typeof loadEngine>>;
let loading: Promise<Loaded> | undefined;
const encoder = new TextEncoder();
const stopped = new Set<number>();
const kTellEvery = 80; // ms

const tell = (answer: FromWorker): void => self.postMessage(answer);
const breath = (): Promise<void> => new Promise((done) => setTimeout(done));

async function planned(engine: Loaded, id: number, job: Uint8Array, yard: Uint8Array, slices: Slices): Promise<Outcome> {
  const run = engine.begin(job, { ...slices, yard });
  let told = performance.now();
  for (;;) {
    const { share, whole } = run.step();
    if (share >= 1 || (whole && stopped.has(id))) break;
    if (performance.now() - told < kTellEvery) continue;
    tell({ id, share, whole });
    await breath(); // a stop is heard here
    told = performance.now();
  }
  stopped.delete(id);
  return run.finish();
}

function answered(engine: Loaded, message: { id: number } & Call): Outcome | Promise<Outcome> {
  const job = encoder.encode(message.job ?? '');
  const yard = encoder.encode(message.yard ?? '');
  const name = message.name ?? '';
  switch (message.call) {
    case 'see':
      return engine.see(job, message.room, !message.quick);
    case 'plan':
      return planned(engine, message.id, job, yard, message.slices ?? { effort: 0, documents: false, pages: false, only: '', paper: '', rolls: 0 });
    case 'why':
      return engine.why(job, name, message.room);
    case 'rules':
      return engine.rules(job);
    case 'words':
      return engine.words();
    case 'check':
      return engine.check(job);
    case 'odds':
      return engine.check(job, { odds: true });
    case 'compare':
      return engine.compare(job, encoder.encode(name), { documents: true, yard });
    case 'offer':
      return engine.priceCheck(name, yard);
    case 'form':
      return engine.form(job, name);
    case 'yard':
      return engine.yard(yard);
    case 'schema':
      return engine.schema(name);
    case 'version':
      return { status: 0, faults: [], json: new Uint8Array(), text: encoder.encode(engine.version()), documents: [] };
  }
}

self.onmessage = async (event: MessageEvent<ToWorker>) => {
  const message = event.data;
  if ('module' in message) {
    loading = loadEngine(message.module);
    return;
  }
  if ('stop' in message) {
    stopped.add(message.stop);
    return;
  }
  try {
    if (!loading) throw new Error('no module');
    tell({ id: message.id, outcome: await answered(await loading, message) });
  } catch (error) {
    tell({ id: message.id, failed: String(error) });
  }
};
