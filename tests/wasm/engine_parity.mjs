// engine_parity.mjs: the native command and the WebAssembly engine give the same bytes for every job of data/demo and
// tests/jobs: status, faults, plan, table, findings, every document, and why of every mark. The cutting list takes the
// least effort there; with more, and with a yard, it is compared for the jobs of data/demo.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadEngine } from '../../scripts/engine.mjs';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
const native = path.join(root, 'build/release/lapwright');
const engine = await loadEngine(readFileSync(path.join(root, 'build/wasm/lapwright.wasm')), (bytes) => process.stderr.write(bytes));

const jobs = ['data/demo', 'tests/jobs', 'tests/wasm/jobs']
  .map((folder) => path.join(root, folder))
  .filter(existsSync)
  .flatMap((folder) => readdirSync(folder, { recursive: true }).map((name) => path.join(folder, name)))
  .filter((name) => name.endsWith('.json'))
  .sort();

let compared = 0;
const differences = [];
function same(what, a, b) {
  compared += 1;
  const [left, right] = [Buffer.from(a), Buffer.from(b)];
  if (left.equals(right)) return;
  let at = 0;
  while (at < left.length && left[at] === right[at]) at += 1;
  const near = (bytes) => JSON.stringify(bytes.subarray(Math.max(0, at - 40), at + 40).toString('utf8'));
  differences.push(`${what}: ${left.length} bytes native, ${right.length} wasm; from byte ${at}:\n  native ${near(left)}\n  wasm   ${near(right)}`);
}

function run(...words) {
  const done = spawnSync(native, words, { maxBuffer: 1 << 28 });
  if (done.error) throw done.error;
  return done;
}

const lines = (outcome) => outcome.faults.map((line) => `${line}\n`).join('');
// Faults go to standard error; what is printed otherwise is shown only when the status is below 2.
const shown = (outcome, bytes) => (outcome.status < 2 ? bytes : '');

for (const job of jobs) {
  const label = path.relative(root, job);
  const bytes = readFileSync(job);
  const out = mkdtempSync(path.join(tmpdir(), 'lapwright-'));
  try {
    const plan = engine.plan(bytes, { documents: true, effort: 0 });
    const written = run('plan', job, '--effort', '0', '--out', out, '--json');
    same(`${label}: status`, `${written.status}`, `${plan.status}`);
    same(`${label}: faults`, written.stderr, lines(plan));
    same(`${label}: plan`, written.stdout, shown(plan, plan.json));
    same(`${label}: table`, run('plan', job, '--effort', '0').stdout, shown(plan, plan.text));
    if (plan.status < 2) {
      const expected = ['plan.json', ...plan.documents.map((document) => document.name)].sort();
      same(`${label}: files`, readdirSync(out).sort().join('\n'), expected.join('\n'));
      for (const document of plan.documents) {
        same(`${label}: ${document.name}`, readFileSync(path.join(out, document.name)), document.bytes);
      }
      const marks = new Set(JSON.parse(Buffer.from(plan.json).toString('utf8')).pieces?.map((piece) => piece.mark));
      for (const mark of marks) {
        same(`${label}: why ${mark}`, run('why', job, mark).stdout, engine.why(bytes, mark).text);
      }
    }
    const check = engine.check(bytes);
    const checked = run('check', job, '--json');
    same(`${label}: check status`, `${checked.status}`, `${check.status}`);
    same(`${label}: findings`, checked.stdout, shown(check, check.json));
  } finally {
    rmSync(out, { recursive: true });
  }
}

const yard = path.join(root, 'tests/jobs/yards/rack.json');
for (const job of jobs.filter((name) => name.includes('data/demo') && !name.includes('yard'))) {
  const label = `${path.relative(root, job)} from the rack`;
  const plan = engine.plan(readFileSync(job), { yard: readFileSync(yard), effort: 0.3 });
  same(`${label}: plan`, run('plan', job, '--yard', yard, '--effort', '0.3', '--json').stdout, plan.json);
}

for (const name of ['job', 'plan', 'yard']) same(`schema ${name}`, run('schema', name).stdout, engine.schema(name).json);
same('version', run('--version').stdout.toString().trim(), engine.version());

for (const difference of differences) console.log(difference);
console.log(`${jobs.length} jobs, ${compared} comparisons, ${differences.length} differ`);
process.exit(differences.length > 0 || jobs.length === 0 ? 1 : 0);
