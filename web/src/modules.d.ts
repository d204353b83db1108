// What is shared with the scripts, which are plain JavaScript.
declare module '*/scripts/engine.mjs' {
  import type { Outcome } from './engine/messages';
  interface Options {
    documents?: boolean;
    pages?: boolean;
    yard?: Uint8Array;
    effort?: number;
    only?: string;
    paper?: string;
    rolls?: number;
  }
  interface Run {
    step(): { share: number; whole: boolean };
    finish(): Outcome;
  }
  interface Calls {
    begin(job: Uint8Array, options?: Options): Run;
    see(job: Uint8Array, room?: { width: number; height: number }, examined?: boolean): Outcome;
    check(job: Uint8Array, options?: { odds?: boolean }): Outcome;
    why(job: Uint8Array, mark: string, room?: { width: number; height: number }): Outcome;
    rules(job: Uint8Array): Outcome;
    words(): Outcome;
    compare(a: Uint8Array, b: Uint8Array, options?: { documents?: boolean; yard?: Uint8Array }): Outcome;
    priceCheck(offer: string, yard?: Uint8Array): Outcome;
    form(job?: Uint8Array, paper?: string): Outcome;
    yard(yard?: Uint8Array): Outcome;
    schema(name: string): Outcome;
    version(): string;
  }
  export function loadEngine(module: Uint8Array, sink?: (bytes: Uint8Array) => void): Promise<Calls>;
}
