// A host with a folder: `lapwright serve` with an empty folder of jobs. `kill` is the hard way; `again` starts it at the same address.
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { dist, root } from './support.mjs';

const tool = process.env.LAPWRIGHT_PROGRAM ?? path.join(root, 'build/release/lapwright');

export async function folderHost() {
  const folder = mkdtempSync(path.join(tmpdir(), 'lapwright-page-'));
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
  process.on('exit', () => {
    child?.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  });
  return {
    url: `http://127.0.0.1:${port}/`,
    again,
    kill: () =>
      new Promise((done) => {
        child.removeAllListeners('exit');
        child.once('exit', done);
        child.kill('SIGKILL');
      }),
    // The jobs in the folder, as the disk has them.
    kept: () =>
      readdirSync(folder)
        .filter((name) => name.endsWith('.json'))
        .map((name) => JSON.parse(readFileSync(path.join(folder, name), 'utf8'))),
  };
}
