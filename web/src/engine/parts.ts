// Where the module's bytes and the worker come from: files beside the page, or, in the single file, the page itself.
import moduleUrl from '../../../build/wasm/lapwright.wasm?url';

interface Carried {
  wasm: string; // base64
  worker: string; // source
}

declare global {
  // Set by the single file (tools/finish.mjs).
  var lapwrightCarried: Carried | undefined;
}

export async function moduleBytes(): Promise<Uint8Array> {
  const carried = globalThis.lapwrightCarried;
  if (carried) return Uint8Array.from(atob(carried.wasm), (c) => c.charCodeAt(0));
  const answer = await fetch(moduleUrl);
  if (!answer.ok) throw new Error(`engine: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

export function makeWorker(): Worker {
  const carried = globalThis.lapwrightCarried;
  if (carried) return new Worker(URL.createObjectURL(new Blob([carried.worker], { type: 'text/javascript' })));
  return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
}

export const isSingleFile = (): boolean => globalThis.lapwrightCarried !== undefined;
