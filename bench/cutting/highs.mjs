// node bench/cutting/highs.mjs FILE.lp SECONDS : HiGHS (npm package `highs`, WebAssembly) on an integer program, as a
// reference for bench/cutting/table.cpp. Prints "cost VALUE", or why not.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const here = path.dirname(fileURLToPath(import.meta.url));
const from = createRequire(path.join(process.env.HIGHS_FOLDER ?? here, 'x.js'));
let load;
try {
  load = from('highs');
} catch {
  console.log('no highs: npm install highs in the folder that HIGHS_FOLDER names');
  process.exit(1);
}
const [file, seconds] = process.argv.slice(2);
const highs = await load();
const answer = highs.solve(readFileSync(file, 'utf8'), { time_limit: Number(seconds) });
console.log(`cost ${answer.ObjectiveValue}`);
