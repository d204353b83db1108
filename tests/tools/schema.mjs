// Judges the corpus and the written plans with ajv, a JSON Schema validator that shares nothing with the reader.
//   node tests/tools/schema.mjs BUILD_FOLDER
// Every good job passes schema/job.json; of the bad ones those that tests/jobs/bad/index.txt calls `refused` fail it and
// the `silent` ones pass; the yards pass schema/yard.json; the sample plan passes schema/plan.json, closed against keys that the schema does not name.
// Ends with 77 (skipped), and says why, when npm cannot install ajv.
import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const kSkipped = 77;
const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const tools = resolve(process.argv[2], 'test-tools');

function install() {
  mkdirSync(tools, { recursive: true });
  const lock = readFileSync(join(here, 'package-lock.json'), 'utf8');
  const installed = join(tools, 'installed-lock.json');
  if (existsSync(installed) && readFileSync(installed, 'utf8') === lock) return;
  for (const name of ['package.json', 'package-lock.json']) copyFileSync(join(here, name), join(tools, name));
  try {
    execFileSync('npm', ['ci', '--no-audit', '--no-fund', '--ignore-scripts'], { cwd: tools, stdio: 'pipe' });
  } catch (error) {
    console.log(`skipped: npm cannot install ajv: ${String(error.stderr ?? error.message).split('\n')[0]}`);
    process.exit(kSkipped);
  }
  copyFileSync(join(here, 'package-lock.json'), installed);
}

install();
const Ajv = createRequire(join(tools, 'package.json'))('ajv/dist/2020').default;
const ajv = () => new Ajv({ strict: true, strictTypes: false, strictRequired: false, allErrors: true });
const read = (...path) => readFileSync(join(root, ...path), 'utf8');
let failures = 0;
let judged = 0;

function expect(name, validate, value, passes) {
  judged += 1;
  if (validate(value) === passes) return;
  failures += 1;
  const why = (validate.errors ?? []).slice(0, 3).map((e) => `${e.instancePath || '/'} ${e.message}`);
  console.log(`${name}: ${passes ? 'refused' : 'passed'}; ${why.join('; ')}`);
}

// Objects of the schema refuse what it does not name, so that a key written but not described shows.
function closed(schema) {
  if (Array.isArray(schema)) return schema.map(closed);
  if (schema === null || typeof schema !== 'object') return schema;
  const out = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closed(value)]));
  if (typeof out.properties === 'object' && out.type === 'object') out.additionalProperties ??= false;
  return out;
}

const job = ajv().compile(JSON.parse(read('schema', 'job.json')));
const good = readdirSync(join(root, 'tests/jobs/good')).filter((name) => name.endsWith('.json'));
for (const name of good) expect(name, job, JSON.parse(read('tests/jobs/good', name)), true);

for (const line of read('tests/jobs/bad/index.txt').split('\n')) {
  if (line === '' || line.startsWith('#')) continue;
  const [name, , says] = line.split(/\s+/);
  if (says !== 'text') expect(name, job, JSON.parse(read('tests/jobs/bad', name)), says === 'silent');
}

const yard = ajv().compile(JSON.parse(read('schema', 'yard.json')));
for (const name of readdirSync(join(root, 'tests/jobs/yards'))) expect(name, yard, JSON.parse(read('tests/jobs/yards', name)), true);
expect('common.json', yard, JSON.parse(read('data/yard/common.json')), true);
const rack = () => JSON.parse(read('tests/jobs/yards/rack.json'));
expect('no rolls', yard, (({ rolls, ...rest }) => rest)(rack()), false);
expect('a width of 0', yard, { ...rack(), rolls: [{ ...rack().rolls[0], width: 0 }] }, false);

const plan = ajv().compile(closed(JSON.parse(read('schema', 'plan.json'))));
const sample = () => JSON.parse(read('tests/job/golden/plan.json'));
expect('plan.json', plan, sample(), true);
// The closed schema can refuse: a key more, a key less, another type.
expect('a key more', plan, { ...sample(), surplus: 1 }, false);
expect('a key less', plan, (({ rows, ...rest }) => rest)(sample()), false);
expect('another type', plan, { ...sample(), pieces: [{ ...sample().pieces[0], mass: '1 kg' }] }, false);

console.log(`${judged} judged, ${failures} wrong`);
process.exit(failures === 0 && good.length >= 4 ? 0 : 1);
