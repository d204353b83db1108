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

  const utf8 = (text) => new TextEncoder().encode(text);

  // A planning that the host steps: step() works for some milliseconds and says how far it is and whether there is a
  // whole plan; finish(), once, gives it. `effort` 1 is about a second of native work; `only` and `paper` choose the
  // documents, `pages` gives their pages as pictures, too; `rolls`, mm of screen, draws each roll for a screen that wide.
  const begin = (job, options = {}) => {
    const { documents = false, pages = false, yard = new Uint8Array(), effort = 1, only = '', paper = '', rolls = 0 } = options;
    const inputs = [job, yard, utf8(only), utf8(paper)];
    const places = inputs.map(put);
    const words = inputs.flatMap((bytes, i) => [places[i], bytes.length]);
    const wanted = (documents ? 1 : 0) + (pages ? 2 : 0);
    const run = exports.engine_begin(...words, wanted, Math.round(effort * 100), rolls > 0 ? 1 : 0, rolls);
    return {
      step() {
        const done = exports.engine_step(run);
        const whole = done >= 2000;
        return { share: (whole ? done - 2000 : done) / 1000, whole };
      },
      finish() {
        try {
          const outcome = decode(take(exports.engine_finish(run)));
          outcome.yard = outcome.documents.pop().bytes;
          return outcome;
        } finally {
          places.forEach((at) => exports.engine_free(at));
        }
      },
    };
  };

  // At once: `progress`, called between the slices with the share that is done, may return false to stop improving the
  // cutting list; what comes back is a whole plan then, too.
  const plan = (job, { progress, ...options } = {}) => {
    const run = begin(job, options);
    for (;;) {
      const { share, whole } = run.step();
      if (share >= 1 || (progress?.(share, whole) === false && whole)) return run.finish();
    }
  };

  return {
    begin,
    plan,
    see: (job, { width = 180, height = 180 } = {}) => call('engine_see', [job], width, height),
    check: (job, { odds = false } = {}) => call('engine_check', [job], odds ? 1 : 0),
    why: (job, mark, { width = 180, height = 180 } = {}) => call('engine_why', [job, utf8(mark)], width, height),
    rules: (job = new Uint8Array()) => call('engine_rules', [job]),
    words: () => call('engine_texts', []),
    compare: (a, b, { documents = false, yard = new Uint8Array() } = {}) =>
      call('engine_compare', [a, b, yard], documents ? 1 : 0),
    priceCheck: (offer, yard = new Uint8Array()) => call('engine_price_check', [utf8(offer), yard]),
    form: (job = new Uint8Array(), paper = 'A4') => call('engine_form', [job, utf8(paper)]),
    yard: (yard = new Uint8Array()) => call('engine_yard', [yard]),
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
