// Who hands the page out: `lapwright serve` with a folder of jobs, or a plain host of files beside which jobs stay on the device.
import { spawn } from 'node:child_process';
import { createReadStream, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { dist, root } from './chromium.mjs';

const tool = process.argv[2] ?? path.join(root, 'build/dev/lapwright');

const scratch = [];
process.on('exit', () => scratch.forEach((folder) => rmSync(folder, { recursive: true, force: true })));
export function scratchFolder() {
  const folder = mkdtempSync(path.join(tmpdir(), 'lapwright-page-'));
  scratch.push(folder);
  return folder;
}

// `lapwright serve`. `kill` is the hard way; `again` starts it at the same address.
export async function serve() {
  const folder = scratchFolder();
  let child = null;
  let port = 0;
  const again = () =>
    new Promise((ready, failed) => {
      child = spawn(tool, ['serve', '--port', String(port), '--jobs', folder, '--page', dist], {
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      child.once('error', failed);
      child.once('exit', (status) => failed(new Error(`lapwright serve ended with ${status}`)));
      child.stdout.on('data', (bytes) => {
        const found = /http:\/\/127\.0\.0\.1:(\d+)\//.exec(String(bytes));
        if (!found) return;
        port = Number(found[1]);
        ready();
      });
    });
  await again();
  return {
    url: `http://127.0.0.1:${port}/`,
    again,
    kill: () =>
      new Promise((done) => {
        if (!child || child.exitCode !== null || child.signalCode) return done();
        child.once('exit', done);
        child.kill('SIGKILL');
      }),
    kept: () =>
      readdirSync(folder)
        .filter((name) => name.endsWith('.json'))
        .map((name) => readFileSync(path.join(folder, name), 'utf8')),
  };
}

const kTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
// As strict as `lapwright serve` is.
const kPolicy =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; style-src 'self'; " +
  "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; " +
  "form-action 'none'; frame-ancestors 'none'";

// A host that knows files and nothing of jobs. `changed` lets a test hand out other bytes under a name.
export async function host(changed = (name, bytes) => bytes) {
  const sockets = new Set();
  let port = 0;
  let server = null;
  const answer = (request, response) => {
    const name = new URL(request.url, 'http://here').pathname.slice(1) || 'index.html';
    const file = path.join(dist, name);
    if (!file.startsWith(dist) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      'content-type': kTypes[path.extname(file)] ?? 'application/octet-stream',
      'content-security-policy': kPolicy,
      'cache-control': 'no-cache',
    });
    if (name === 'sw.js') response.end(changed(name, readFileSync(file, 'utf8')));
    else createReadStream(file).pipe(response);
  };
  const again = () =>
    new Promise((ready) => {
      server = createServer(answer);
      server.on('connection', (socket) => {
        sockets.add(socket);
        socket.on('close', () => sockets.delete(socket));
      });
      server.listen(port, '127.0.0.1', () => {
        port = server.address().port;
        ready();
      });
    });
  await again();
  return {
    url: `http://127.0.0.1:${port}/`,
    again,
    kill: () =>
      new Promise((done) => {
        server.close(done);
        for (const socket of sockets) socket.destroy();
      }),
  };
}
