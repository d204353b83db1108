// The page as `lapwright serve` hands it out: jobs in a folder, the server killed under it, and back again.
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { dist, expect, launch, open, root, run } from './support.mjs';

const program = process.env.LAPWRIGHT_PROGRAM ?? path.join(root, 'build/release/lapwright');
if (spawnSync(program, ['serve', '--help']).status !== 0) {
  console.log('this lapwright does not serve');
  process.exit(77);
}

const jobs = mkdtempSync(path.join(tmpdir(), 'lapwright-jobs-'));
async function serve(port = 0) {
  const server = spawn(program, ['serve', '--port', String(port), '--jobs', jobs, '--page', dist]);
  const url = await new Promise((done, failed) => {
    let said = '';
    server.stdout.on('data', (bytes) => {
      said += bytes;
      const found = /http:\/\/127\.0\.0\.1:(\d+)\//.exec(said);
      if (found) done(found[0]);
    });
    server.on('exit', () => failed(new Error(`the server ended: ${said}`)));
  });
  return { url, port: Number(new URL(url).port), kill: () => new Promise((done) => { server.removeAllListeners('exit'); server.on('exit', done); server.kill('SIGKILL'); }) };
}

const browser = await launch();
const pitchIn = () => JSON.parse(readFileSync(path.join(jobs, 'demo.json'), 'utf8')).slopes[0].pitch;

await run({
  'a job in the folder, the server killed and back': async () => {
    let server = await serve();
    const { page, context } = await open(browser, 'desk');
    await page.goto(`${server.url}#/demo`);
    await page.waitForSelector('.sheet svg');
    const field = page.locator('input.number');
    await field.fill('43');
    await page.waitForSelector('.saving.saved');
    await page.waitForTimeout(500);
    expect(pitchIn() === 43, 'what was typed is in the folder');
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      if (!navigator.serviceWorker.controller) {
        await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
      }
    });

    await server.kill();
    await page.reload();
    await page.waitForSelector('.sheet svg');
    expect((await field.inputValue()) === '43', 'the job opens with the server gone');
    await field.fill('44');
    await page.waitForSelector('.saving.away');
    await page.reload();
    await page.waitForSelector('.sheet svg');
    expect((await field.inputValue()) === '44', 'and keeps what was changed meanwhile');
    expect(pitchIn() === 43, 'the folder does not have it yet');

    server = await serve(server.port);
    await page.waitForSelector('.saving.saved');
    expect(pitchIn() === 44, 'the folder has it once the server is back');

    // Someone else at the folder: another browser, which hears no word between windows.
    const other = await open(browser, 'phone');
    await other.page.goto(`${server.url}#/job/demo/measure`);
    await other.page.waitForSelector('.sheet svg');
    await other.page.locator('input.number').fill('45');
    await other.page.waitForSelector('.saving.saved');
    await other.page.waitForTimeout(500);
    await field.fill('46');
    await page.waitForSelector('.saving.other');
    expect(pitchIn() === 45, 'neither wins silently');
    await page.getByRole('button', { name: 'Keep mine' }).click();
    await page.waitForSelector('.saving.saved');
    expect(pitchIn() === 46, 'the person chose');
    await other.context.close();
    await context.close();
    await server.kill();
    rmSync(jobs, { recursive: true });
  },
});
