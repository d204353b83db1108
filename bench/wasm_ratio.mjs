// node bench/wasm_ratio.mjs : the same jobs planned by the native engine and by WebAssembly, in one run, as a ratio.
//
// Needs build/bench/lapwright_bench (scripts/build bench) and build/wasm/lapwright.wasm (scripts/build wasm). Medians of
// repeated plannings, after warming up; the native figures come from the benchmark program itself.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadEngine } from '../scripts/engine.mjs';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');
const engine = await loadEngine(readFileSync(path.join(root, 'build/wasm/lapwright.wasm')), () => {});

// As bench/plan_bench.cpp makes them.
const wall = (courses) =>
  new TextEncoder().encode(
    `{"format":"lapwright-job/1","title":"bench","slopes":[{"name":"rear","pitch":40,"rafter":${courses * 100},` +
      `"width":5200,"covering":{"kind":"plain-tile","length":265,"width":165,"thickness":12,"camber":3,` +
      `"max_gauge":100},"junctions":[{"name":"wall","kind":"side","hand":"left","from":0,"to":${courses * 100},` +
      `"wall":{"kind":"brick","course":75,"first_joint":30}}]}]}`,
  );
const demo = readFileSync(path.join(root, 'data/demo/hollin-barn.json'));
const cases = [
  ...[10, 40, 100, 1000].map((courses) => [`plan/${courses}`, () => engine.plan(wall(courses))]),
  ['sheets', () => engine.plan(demo, { documents: true })],
];

const run = spawnSync(path.join(root, 'build/bench/lapwright_bench'), [
  '--benchmark_filter=^(plan|sheets)',
  '--benchmark_format=json',
  '--benchmark_repetitions=5',
  '--benchmark_report_aggregates_only=true',
]);
if (run.status !== 0) throw new Error(`the native benchmark failed: ${run.stderr}`);
const native = new Map(
  JSON.parse(run.stdout.toString()).benchmarks
    .filter((row) => row.aggregate_name === 'median')
    .map((row) => [row.run_name, row.real_time]),
);

console.log('case        native ms   wasm ms   ratio');
for (const [name, plan] of cases) {
  for (let i = 0; i < 5; i += 1) plan();
  const times = [];
  const end = performance.now() + 1500;
  while (performance.now() < end || times.length < 5) {
    const start = performance.now();
    if (plan().status !== 0) throw new Error(`${name}: not planned`);
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  const wasm = times[Math.floor(times.length / 2)];
  const base = native.get(name);
  console.log(
    `${name.padEnd(10)} ${base.toFixed(2).padStart(10)} ${wasm.toFixed(2).padStart(9)} ${(wasm / base).toFixed(2).padStart(7)}`,
  );
}
