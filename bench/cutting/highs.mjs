// node bench/cutting/highs.mjs FILE.lp SECONDS : HiGHS (npm package `highs`, WebAssembly) on an integer program, as a
// reference for bench/cutting/table.cpp. Prints "cost VALUE", or why not; installs itself into build/bench/tools.
import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const here = path.join(path.dirname(fileURLToPath(import.meta.url)), 'tools');
const tools = path.resolve('build/bench/tools');

function load() {
  mkdirSync(tools, { recursive: true });
  const from = createRequire(path.join(tools, 'package.json'));
  if (existsSync(path.join(tools, 'node_modules', 'highs'))) return from('highs');
  for (const name of ['package.json', 'package-lock.json']) copyFileSync(path.join(here, name), path.join(tools, name));
  execFileSync('npm', ['ci', '--no-audit', '--no-fund', '--ignore-scripts'], { cwd: tools, stdio: 'pipe' });
  return from('highs');
}

let solver;
try {
  solver = load();
} catch (error) {
  console.log(`no highs: ${String(error.stderr ?? error.message).split('\n')[0]}`);
  process.exit(1);
}
const [file, seconds] = process.argv.slice(2);
const highs = await solver();
const answer = highs.solve(readFileSync(file, 'utf8'), { time_limit: Number(seconds) });
console.log(`cost ${answer.ObjectiveValue}`);
