// Types for job and plan from the schemas that the engine itself prints (schema/*.json): the page cannot drift from it.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const root = new URL('../../', import.meta.url);
const out = new URL('../src/generated/', import.meta.url);

const named = (text) => text[0].toUpperCase() + text.slice(1);

function typeOf(schema, prefix, indent) {
  if (schema.$ref) return prefix + named(schema.$ref.split('/').at(-1));
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.map((word) => JSON.stringify(word)).join(' | ');
  if (schema.anyOf) return [...new Set(schema.anyOf.map((one) => typeOf(one, prefix, indent)))].join(' | ');
  if (schema.prefixItems) return `[${schema.prefixItems.map((one) => typeOf(one, prefix, indent)).join(', ')}]`;
  switch (schema.type) {
    case 'integer':
    case 'number':
      return 'number';
    case 'string':
      return 'string';
    case 'boolean':
      return 'boolean';
    case 'array':
      return `(${typeOf(schema.items ?? {}, prefix, indent)})[]`;
    case 'object':
      return objectOf(schema, prefix, indent);
    default:
      return Array.isArray(schema.type) ? schema.type.join(' | ') : 'unknown';
  }
}

function objectOf(schema, prefix, indent) {
  if (!schema.properties) {
    const values = schema.additionalProperties;
    return `{ [name: string]: ${values && values !== true ? typeOf(values, prefix, indent) : 'unknown'} }`;
  }
  const deeper = `${indent}  `;
  const lines = Object.entries(schema.properties).map(([key, value]) => {
    const optional = schema.required?.includes(key) ? '' : '?';
    const comment = value.description ? `${deeper}/** ${value.description} */\n` : '';
    return `${comment}${deeper}${JSON.stringify(key)}${optional}: ${typeOf(value, prefix, deeper)};\n`;
  });
  return `{\n${lines.join('')}${indent}}`;
}

mkdirSync(out, { recursive: true });
for (const name of ['job', 'plan', 'yard']) {
  const schema = JSON.parse(readFileSync(new URL(`schema/${name}.json`, root), 'utf8'));
  const prefix = named(name);
  const parts = Object.entries(schema.$defs ?? {}).map(
    ([key, value]) => `export type ${prefix}${named(key)} = ${typeOf(value, prefix, '')};\n`,
  );
  parts.push(`export type ${prefix} = ${typeOf(schema, prefix, '')};\n`);
  const text = `// Made from schema/${name}.json by tools/types.mjs.\n${parts.join('\n')}`;
  const file = new URL(`${name}.ts`, out);
  // Left alone when nothing changed, so that a build with nothing to do stays quick.
  let old = '';
  try {
    old = readFileSync(file, 'utf8');
  } catch {
    // not made yet
  }
  if (old !== text) writeFileSync(file, text);
}
