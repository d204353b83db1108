// What is shared with the scripts, which are plain JavaScript.
declare module '*/scripts/engine.mjs' {
  import type { Outcome } from './engine/messages';
  interface Calls {
    plan(job: Uint8Array, options?: { documents?: boolean }): Outcome;
    see(job: Uint8Array, room?: { width: number; height: number }): Outcome;
    check(job: Uint8Array): Outcome;
    why(job: Uint8Array, mark: string, room?: { width: number; height: number }): Outcome;
    rules(job: Uint8Array): Outcome;
    words(): Outcome;
    schema(name: string): Outcome;
    version(): string;
  }
  export function loadEngine(module: Uint8Array, sink?: (bytes: Uint8Array) => void): Promise<Calls>;
}
