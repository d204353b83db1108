// The engine in its own thread. One call at a time; to cancel one, the page ends the worker and starts another.
import { loadEngine } from '../../../scripts/engine.mjs';
import type { FromWorker, Outcome, ToWorker } from './messages';

type Loaded = Awaited<ReturnType<typeof loadEngine>>;
let loading: Promise<Loaded> | undefined;
const encoder = new TextEncoder();

function run(engine: Loaded, message: Exclude<ToWorker, { module: Uint8Array }>): Outcome {
  const job = encoder.encode(message.job);
  switch (message.call) {
    case 'see':
      return engine.see(job, message.room);
    case 'documents':
      return engine.plan(job, { documents: true });
    case 'why':
      return engine.why(job, message.name, message.room);
    case 'rules':
      return engine.rules(job);
    case 'words':
      return engine.words();
    case 'check':
      return engine.check(job);
    case 'schema':
      return engine.schema(message.name);
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
  let answer: FromWorker;
  try {
    if (!loading) throw new Error('no module');
    answer = { id: message.id, outcome: run(await loading, message) };
  } catch (error) {
    answer = { id: message.id, failed: String(error) };
  }
  self.postMessage(answer);
};
