// One worker and the calls that wait for it. Ended and started again, it has forgotten every call.
import { makeWorker } from './parts';
import type { Call, FromWorker, Outcome, ToWorker } from './messages';

export type Heard = (share: number, whole: boolean) => void;

interface Waiting {
  done: (outcome: Outcome | null) => void;
  failed: (error: Error) => void;
  heard?: Heard | undefined;
}

export interface Going {
  outcome: Promise<Outcome | null>;
  // Of a planning: to end soon, with what there is.
  stop(): void;
}

export class Bench {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Waiting>();
  private next = 1;

  constructor(private readonly module: () => Promise<Uint8Array>) {}

  call(call: Call): Promise<Outcome | null> {
    return this.begin(call).outcome;
  }

  begin(call: Call, heard?: Heard): Going {
    const id = this.next;
    this.next += 1;
    let stopped = false;
    const outcome = this.module().then(
      (module) =>
        new Promise<Outcome | null>((done, failed) => {
          const worker = this.worker ?? this.start(module);
          this.waiting.set(id, { done, failed, heard });
          const message: ToWorker = { id, ...call };
          worker.postMessage(message);
          if (stopped) worker.postMessage({ stop: id } satisfies ToWorker);
        }),
    );
    return {
      outcome,
      stop: () => {
        stopped = true;
        if (this.waiting.has(id)) this.worker?.postMessage({ stop: id } satisfies ToWorker);
      },
    };
  }

  // Ends what is running; every waiting call gives null.
  cancel(): void {
    this.worker?.terminate();
    this.worker = null;
    for (const { done } of this.waiting.values()) done(null);
    this.waiting.clear();
  }

  private start(module: Uint8Array): Worker {
    const worker = makeWorker();
    this.worker = worker;
    worker.onmessage = (event: MessageEvent<FromWorker>) => {
      const answer = event.data;
      const waiting = this.waiting.get(answer.id);
      if ('share' in answer) {
        waiting?.heard?.(answer.share, answer.whole);
        return;
      }
      this.waiting.delete(answer.id);
      if (!waiting) return;
      if ('outcome' in answer) {
        waiting.done(answer.outcome);
      } else {
        // A module that trapped cannot be trusted again: the next call gets a new one.
        waiting.failed(new Error(answer.failed));
        this.cancel();
      }
    };
    worker.onerror = (event) => {
      for (const { failed } of this.waiting.values()) failed(new Error(event.message));
      this.waiting.clear();
      this.cancel();
    };
    const first: ToWorker = { module };
    worker.postMessage(first);
    return worker;
  }
}
