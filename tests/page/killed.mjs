// The whole browser killed in the middle of saving, as by a dead battery: opened again on the same profile, the job is whole,
// and whatever the page had called saved is there.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, expect, run, serve } from './support.mjs';
import { openDemo, pictured } from './walk.mjs';

const profile = mkdtempSync(path.join(tmpdir(), 'lapwright-profile-'));
process.on('exit', () => rmSync(profile, { recursive: true, force: true, maxRetries: 5 }));
const server = await serve();

// Started as a process of our own, so that it can be killed with all its children.
async function start() {
  const told = path.join(profile, 'DevToolsActivePort');
  rmSync(told, { force: true });
  const child = spawn(
    '/usr/bin/chromium',
    ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'],
    { stdio: 'ignore', detached: true },
  );
  for (let i = 0; i < 200 && !(existsSync(told) && readFileSync(told, 'utf8').includes('\n')); i += 1) {
    await new Promise((done) => setTimeout(done, 50));
  }
  const [port] = readFileSync(told, 'utf8').split('\n');
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const page = browser.contexts()[0].pages()[0] ?? (await browser.contexts()[0].newPage());
  return {
    page,
    kill: async () => {
      const gone = new Promise((done) => child.once('exit', done));
      process.kill(-child.pid, 'SIGKILL');
      await gone;
    },
  };
}

const field = (page) => page.locator('input.number');

await run({
  'killed at several moments of a save': async () => {
    let known = '40';
    let saidSaved = 0;
    // ms after the last key: before the save, about its beginning, after it.
    for (const [i, wait] of [0, 255, 900].entries()) {
      const { page, kill } = await start();
      await openDemo(page, server.url);
      const found = await field(page).inputValue();
      expect(found === known || i > 0, `begins with ${known}: ${found}`);
      const typed = `4${i + 1}.5`;
      await field(page).fill(typed);
      await page.waitForTimeout(wait);
      const said = (await page.locator('.saving.saved').count()) > 0 && (await field(page).inputValue()) === typed && wait > 0;
      await kill();
      const again = await start();
      await openDemo(again.page, server.url);
      await pictured(again.page);
      const left = await field(again.page).inputValue();
      expect(left === typed || left === found, `after ${wait} ms it is what was typed or what was there before, whole: ${left}`);
      if (said) saidSaved += 1;
      if (said) expect(left === typed, `called saved after ${wait} ms, and it is: ${left}`);
      expect((await again.page.locator('.wrong-here').count()) === 0, 'and can be planned');
      known = left;
      // Let it come to the disk before the next round takes it for known.
      await again.page.locator('.saving.saved').waitFor();
      await again.kill();
    }
    expect(saidSaved > 0, 'it was called saved at least once');
    await server.stop();
  },
});
