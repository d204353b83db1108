// Installed once, the page does everything with its server gone; the single file needs none at all.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dist, expect, launch, open, run, serve } from './support.mjs';

const browser = await launch();

// Pitch, picture, PDF.
async function works(page, what) {
  await page.waitForSelector('.sheet svg');
  await page.locator('input.number').fill('42');
  await page.waitForFunction(() => [...document.querySelectorAll('.sheet text')].some((t) => t.textContent === '42°'));
  await page.getByRole('link', { name: /^Papers/ }).click();
  await page.getByRole('button', { name: 'Make the papers' }).click();
  await page.waitForSelector('.paper-sheet', { timeout: 60_000 });
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('.paper-sheet').click()]);
  expect(readFileSync(await download.path()).subarray(0, 5).toString() === '%PDF-', `${what}: a PDF`);
}

const ready = (page) => page.evaluate(async () => {
  await navigator.serviceWorker.ready;
  if (!navigator.serviceWorker.controller) {
    await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
  }
});

await run({
  'server killed, reloaded': async () => {
    const server = await serve();
    const { page, context } = await open(browser, 'desk');
    await page.goto(`${server.url}#/demo`);
    await page.waitForSelector('.sheet svg');
    await ready(page);
    await server.stop();
    await page.reload();
    await works(page, 'offline');
    const fresh = await context.newPage();
    await fresh.goto(`${server.url}?x=1#/`);
    await fresh.waitForSelector('.job-list li');
    await context.close();
  },
  'a new version is offered, not forced': async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'lapwright-page-'));
    cpSync(dist, folder, { recursive: true });
    const server = await serve(folder);
    const { page, context } = await open(browser, 'desk');
    await page.goto(`${server.url}#/demo`);
    await page.waitForSelector('.sheet svg');
    await ready(page);
    const old = readFileSync(path.join(folder, 'sw.js'), 'utf8');
    writeFileSync(path.join(folder, 'sw.js'), old.replace(/kVersion = "[0-9a-f]+"/, 'kVersion = "0123456789abcdef"'));
    await page.reload();
    await page.waitForSelector('.newer');
    expect(await page.locator('.sheet svg').isVisible(), 'the job stays open beside the offer');
    await Promise.all([page.waitForEvent('load'), page.getByRole('button', { name: 'Take it now' }).click()]);
    await page.waitForSelector('.sheet svg');
    expect((await page.locator('.newer').count()) === 0, 'once taken it is not offered again');
    expect((await page.evaluate(() => caches.keys())).join() === 'lapwright-0123456789abcdef', 'the old version is gone');
    await context.close();
    await server.stop();
    rmSync(folder, { recursive: true });
  },
  'single file from file://': async () => {
    const { page, context, complaints } = await open(browser, 'phone');
    await page.goto(`file://${path.join(dist, 'lapwright.html')}#/demo`);
    await works(page, 'single file');
    await page.reload();
    await page.waitForSelector('.panel');
    await page.getByRole('link', { name: 'All jobs' }).click();
    await page.waitForSelector('.job-list li');
    expect(complaints.length === 0, `the console is quiet: ${complaints.join(' | ')}`);
    await context.close();
  },
});
