#!/usr/bin/env node
// scripts/run-wasm.mjs plan JOB [--yard YARD] [--effort N] [--out DIR] [--json] | check JOB [--json] | why JOB MARK | schema NAME
// The command line on the WebAssembly engine, under Node: the same words in, the same bytes out as build/release/lapwright.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadEngine } from './engine.mjs';

const module = process.env.LAPWRIGHT_WASM
  ?? path.join(path.dirname(fileURLToPath(import.meta.url)), '../build/wasm/lapwright.wasm');
const words = process.argv.slice(2);
const json = words.includes('--json');
const valueOf = (name) => (words.includes(name) ? words[words.indexOf(name) + 1] : undefined);
const out = valueOf('--out');
const withValue = ['--out', '--yard', '--effort'];
const [verb, subject, mark] = words.filter((word, i) => !word.startsWith('--') && !withValue.includes(words[i - 1]));

if (!['plan', 'check', 'why', 'schema'].includes(verb) || subject === undefined) {
  const source = readFileSync(fileURLToPath(import.meta.url), 'utf8');
  console.error(source.split('\n').slice(1, 3).map((line) => line.slice(3)).join('\n'));
  process.exit(2);
}

const engine = await loadEngine(readFileSync(module), (bytes) => process.stderr.write(bytes));
const outcome = {
  plan: () => engine.plan(readFileSync(subject), {
    documents: out !== undefined,
    effort: Number(valueOf('--effort') ?? 1),
    ...(valueOf('--yard') === undefined ? {} : { yard: readFileSync(valueOf('--yard')) }),
  }),
  check: () => engine.check(readFileSync(subject)),
  why: () => engine.why(readFileSync(subject), mark ?? ''),
  schema: () => engine.schema(subject),
}[verb]();

for (const line of outcome.faults) process.stderr.write(`${line}\n`);
if (outcome.status < 2) {
  if (out !== undefined) {
    mkdirSync(out, { recursive: true });
    for (const document of outcome.documents) writeFileSync(path.join(out, document.name), document.bytes);
    writeFileSync(path.join(out, 'plan.json'), outcome.json);
  }
  process.stdout.write(json || verb === 'schema' ? outcome.json : outcome.text);
}
process.exitCode = outcome.status;
