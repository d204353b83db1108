// trig_parity.mjs NATIVE_PROGRAM MODULE.wasm: the native and the WebAssembly trigonometry give the same bits.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { instantiate } from '../../scripts/wasi.mjs';

const [native, module] = process.argv.slice(2);
const lines = execFileSync(native, { encoding: 'utf8' }).trim().split('\n');
const grid = await instantiate(readFileSync(module), (bytes) => process.stderr.write(bytes));

const ours = [];
for (let i = 0; grid.grid_name_length(i) > 0; i += 1) {
  const name = Buffer.from(grid.memory.buffer, grid.grid_name(i), grid.grid_name_length(i)).toString('utf8');
  ours.push(`${name} ${BigInt.asUintN(64, grid.grid_bits(i)).toString(16).padStart(16, '0')}`);
}

let differ = lines.length === ours.length && lines.length > 0 ? 0 : 1;
for (let i = 0; i < Math.max(lines.length, ours.length); i += 1) {
  if (lines[i] === ours[i]) continue;
  console.log(`native ${lines[i] ?? 'nothing'}, wasm ${ours[i] ?? 'nothing'}`);
  differ += 1;
}
console.log(differ ? 'FAILED' : `${lines.length} functions agree to the last bit`);
process.exit(differ ? 1 : 0);
