// After the build: the service worker with its list of files, and the single file with everything in it.
//
// The single file is made here and not in the bundler: the worker and the module are put in as text once their final bytes
// are known.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';

const dist = new URL('../dist/', import.meta.url);
const read = (name) => readFileSync(new URL(name, dist));

function filesIn(folder = '') {
  return readdirSync(new URL(folder, dist), { withFileTypes: true })
    .flatMap((entry) => (entry.isDirectory() ? filesIn(`${folder}${entry.name}/`) : [`${folder}${entry.name}`]))
    .sort();
}

const hashOf = (bytes) => createHash('sha256').update(bytes).digest('hex').slice(0, 16);

// Everything but what is made here.
const kMadeHere = new Set(['sw.js', 'lapwright.html']);
const files = filesIn().filter((name) => !kMadeHere.has(name));
const hashes = files.map((name) => [name, hashOf(read(name))]);
const version = hashOf(JSON.stringify(hashes));

const worker = readFileSync(new URL('./service_worker.js', import.meta.url), 'utf8')
  .replace("'@VERSION@'", () => JSON.stringify(version))
  .replace("'@FILES@'", () => JSON.stringify(hashes));
writeFileSync(new URL('sw.js', dist), worker);

const only = (pattern, folder = dist) => {
  const found = readdirSync(new URL('assets/', folder)).filter((name) => pattern.test(name));
  if (found.length !== 1) throw new Error(`${pattern} names ${found.length} files: ${found.join(', ')}`);
  return readFileSync(new URL(`assets/${found[0]}`, folder));
};
// Built a second time in one piece.
const single = new URL('../dist-single/', import.meta.url);
// What stands in a script element may not end it.
const inScript = (text) => text.replace(/<(\/script|!--)/gi, '\\x3C$1');
const style = only(/\.css$/, single).toString('utf8');
const main = only(/^index-.*\.js$/, single).toString('utf8');
const carried = {
  worker: only(/^worker-.*\.js$/).toString('utf8'),
  wasm: only(/^lapwright-.*\.wasm$/).toString('base64'),
};
const icon = `data:image/svg+xml;base64,${read('icon.svg').toString('base64')}`;
const whole = read('index.html')
  .toString('utf8')
  .replace(/\s*<link rel="(manifest|apple-touch-icon|stylesheet|modulepreload)"[^>]*>/g, '')
  .replace(/\s*<meta http-equiv[^>]*>/g, '')
  .replace(/(<link rel="icon" href=")[^"]*/, (_, start) => start + icon)
  .replace(/\s*<script type="module"[^>]*><\/script>/, '')
  .replace('</head>', () => `  <style>${style}</style>\n  </head>`)
  .replace(
    '</body>',
    () =>
      `<script>globalThis.lapwrightCarried=${inScript(JSON.stringify(carried))};</script>\n` +
      `<script type="module">${inScript(main)}</script>\n</body>`,
  );
writeFileSync(new URL('lapwright.html', dist), whole);
rmSync(single, { recursive: true });
