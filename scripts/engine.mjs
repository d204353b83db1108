// The engine's calls, for any JavaScript host: bytes in, { status, faults, json, text, documents } out. The other side
// is apps/wasm/engine.cpp, which says how the block of an answer is laid out.
import { instantiate } from './wasi.mjs';

const decoder = new TextDecoder();

export async function loadEngine(moduleBytes, sink) {
  const exports = await instantiate(moduleBytes, sink);

  const put = (bytes) => {
    const at = exports.engine_alloc(bytes.length);
    if (at === 0) throw new Error('the engine has no memory left');
    new Uint8Array(exports.memory.buffer, at, bytes.length).set(bytes);
    return at;
  };

  const take = (at) => {
    if (at === 0) throw new Error('the engine has no memory left');
    const view = new DataView(exports.memory.buffer, at);
    const size = view.getUint32(0, true);
    const bytes = new Uint8Array(exports.memory.buffer, at, size).slice();
    exports.engine_free(at);
    return bytes;
  };

  const call = (name, inputs, ...numbers) => {
    const places = inputs.map(put);
    const words = inputs.flatMap((bytes, i) => [places[i], bytes.length]);
    try {
      return decode(take(exports[name](...words, ...numbers)));
    } finally {
      places.forEach((at) => exports.engine_free(at));
    }
  };

  // In slices: `progress`, called between them with the share that is done, may return false to stop improving the
  // cutting list; what comes back is a whole plan then, too. `effort` 1 is about a second of native work.
  const plan = (job, { documents = false, yard = new Uint8Array(), effort = 1, progress } = {}) => {
    const inputs = [job, yard];
    const places = inputs.map(put);
    try {
      const words = inputs.flatMap((bytes, i) => [places[i], bytes.length]);
      const run = exports.engine_begin(...words, documents ? 1 : 0, Math.round(effort * 100));
      for (;;) {
        const done = exports.engine_step(run);
        const whole = done >= 2000;
        const share = (whole ? done - 2000 : done) / 1000;
        if (share >= 1 || (progress?.(share, whole) === false && whole)) break;
      }
      const outcome = decode(take(exports.engine_finish(run)));
      outcome.yard = outcome.documents.pop().bytes;
      return outcome;
    } finally {
      places.forEach((at) => exports.engine_free(at));
    }
  };

  const utf8 = (text) => new TextEncoder().encode(text);
  return {
    plan,
    see: (job, { width = 180, height = 180 } = {}) => call('engine_see', [job], width, height),
    check: (job) => call('engine_check', [job]),
    why: (job, mark, { width = 180, height = 180 } = {}) => call('engine_why', [job, utf8(mark)], width, height),
    rules: (job = new Uint8Array()) => call('engine_rules', [job]),
    words: () => call('engine_texts', []),
    compare: (a, b, { documents = false, yard = new Uint8Array() } = {}) =>
      call('engine_compare', [a, b, yard], documents ? 1 : 0),
    priceCheck: (offer, yard = new Uint8Array()) => call('engine_price_check', [utf8(offer), yard]),
    form: (job = new Uint8Array(), paper = 'A4') => call('engine_form', [job, utf8(paper)]),
    schema: (name) => call('engine_schema', [utf8(name)]),
    version: () => decoder.decode(call('engine_version', []).text),
  };
}

function decode(block) {
  const view = new DataView(block.buffer, block.byteOffset);
  let at = 12;
  const next = (length) => block.subarray(at, (at += length));
  const parts = [];
  for (let left = view.getUint32(8, true); left > 0; left -= 1) {
    const lengths = [0, 4, 8].map((offset) => view.getUint32(at + offset, true));
    at += 12;
    const [name, media, bytes] = lengths.map(next);
    parts.push({ name: decoder.decode(name), media: decoder.decode(media), bytes });
  }
  const [faults, json, text, ...documents] = parts;
  return {
    status: view.getUint32(4, true),
    faults: decoder.decode(faults.bytes).split('\n').filter(Boolean),
    json: json.bytes,
    text: text.bytes,
    documents,
  };
}
