// One worker and the calls that wait for it. Ended and started again, it has forgotten every call.
import type { Room } from './engine';
import { makeWorker } from './parts';
import type { CallName, FromWorker, Outcome, ToWorker } from './messages';

interface Waiting {
  done: (outcome: Outcome | null) => void;
  failed: (error: Error) => void;
}

export class Bench {
  private worker: Worker | null = null;
  private readonly waiting = new Map<number, Waiting>();
  private next = 1;

  constructor(private readonly module: () => Promise<Uint8Array>) {}

  async call(name: CallName, job: string, argument = '', room: Room = { width: 180, height: 180 }): Promise<Outcome | null> {
    const module = await this.module();
    if (!this.worker) this.start(module);
    const id = this.next;
    this.next += 1;
    return new Promise((done, failed) => {
      this.waiting.set(id, { done, failed });
      const message: ToWorker = { id, call: name, job, name: argument, room };
      this.worker?.postMessage(message);
    });
  }

  // Ends what is running; every waiting call gives null.
  cancel(): void {
    this.worker?.terminate();
    this.worker = null;
    for (const { done } of this.waiting.values()) done(null);
    this.waiting.clear();
  }

  private start(module: Uint8Array): void {
    const worker = makeWorker();
    this.worker = worker;
    worker.onmessage = (event: MessageEvent<FromWorker>) => {
      const answer = event.data;
      const waiting = this.waiting.get(answer.id);
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
  }
}
