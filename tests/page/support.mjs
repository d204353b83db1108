// What the page's tests share: a small server of web/dist with the policy that `lapwright serve` sends, and a Chromium.
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const dist = path.join(root, 'web/dist');
const kProgram = '/usr/bin/chromium';
if (!existsSync(kProgram)) {
  console.log(`skipped: there is no ${kProgram}`);
  process.exit(77);
}
const require = createRequire(path.join(root, 'web/package.json'));
export const { chromium } = require('playwright-core');
export const axeSource = require('axe-core').source;

const kTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
const kPolicy =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; style-src 'self'; " +
  "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; " +
  "form-action 'none'; frame-ancestors 'none'";

// Only files: no jobs are kept, so the page keeps them on the device.
export async function serve(folder = dist, port = 0) {
  const server = createServer((request, response) => {
    const name = decodeURIComponent(new URL(request.url, 'http://here').pathname);
    const file = path.join(folder, name === '/' ? 'index.html' : name);
    if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      'content-type': kTypes[path.extname(file)] ?? 'application/octet-stream',
      'content-security-policy': kPolicy,
      'cache-control': 'no-store',
    });
    createReadStream(file).pipe(response);
  });
  await new Promise((done) => server.listen(port, '127.0.0.1', done));
  return {
    url: `http://127.0.0.1:${server.address().port}/`,
    port: server.address().port,
    stop: () =>
      new Promise((done) => {
        server.close(done);
        server.closeAllConnections();
      }),
  };
}

export const launch = () =>
  chromium.launch({ executablePath: kProgram, args: ['--no-sandbox', '--disable-gpu'] });

export const sizes = { phone: { width: 390, height: 844 }, desk: { width: 1440, height: 900 } };

// A window of that size; what the page says on its console as a fault is collected.
export async function open(browser, size, options = {}) {
  const context = await browser.newContext({
    viewport: sizes[size],
    hasTouch: size === 'phone',
    acceptDownloads: true,
    ...options,
  });
  const page = await context.newPage();
  const complaints = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    // Asking whether a server keeps jobs, or has the demo, may be answered "no".
    if (message.type() === 'error' && !/\/api\/jobs(\/demo)?$/.test(message.location().url)) complaints.push(message.text());
  });
  page.setDefaultTimeout(20_000);
  return { context, page, complaints };
}

let failures = 0;
export function expect(holds, what) {
  if (holds) return;
  failures += 1;
  console.error(`FAILED: ${what}`);
}

// Runs the checks by name, in turn; the process ends with their status.
export async function run(checks) {
  const only = process.argv[2];
  for (const [name, check] of Object.entries(checks)) {
    if (only && !name.includes(only)) continue;
    const before = failures;
    try {
      await check();
    } catch (error) {
      failures += 1;
      console.error(`FAILED: ${name}: ${error.stack ?? error}`);
    }
    console.log(`${failures === before ? 'ok  ' : 'FAIL'} ${name}`);
  }
  process.exit(failures === 0 ? 0 : 1);
}
