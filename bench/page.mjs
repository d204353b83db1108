// node bench/page.mjs : what the page weighs, how soon its first picture is there, how soon a keystroke is in the picture.
//
// Needs web/dist (scripts/build page) and Chromium. Each is printed beside what is wanted, with the ratio: under 1 is better.
// Chromium slows only the page's own thread when it is told to: the engine's worker runs at full speed there.
// bench/wasm_ratio.mjs compares the engine's two builds.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { dist, launch, open, serve } from '../tests/page/support.mjs';

const kRounds = 5;
const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const row = (what, is, wanted, unit) =>
  console.log(`${what.padEnd(44)} ${Math.round(is).toString().padStart(7)} ${unit}  of ${wanted} ${unit}   ${(is / wanted).toFixed(2)}`);

const weigh = (names) => names.reduce((sum, name) => sum + gzipSync(readFileSync(path.join(dist, name)), { level: 9 }).length, 0) / 1000;
const assets = readdirSync(path.join(dist, 'assets')).map((name) => `assets/${name}`);
row('engine, gzipped', weigh(assets.filter((name) => name.endsWith('.wasm'))), 600, 'kB');
row('page and engine, gzipped', weigh(['index.html', 'sw.js', ...assets]), 600, 'kB');
row('the single file, gzipped', weigh(['lapwright.html']), 900, 'kB');

const server = await serve();
const browser = await launch();

// From the address to the roof, on a phone at a fourth of this machine's speed; then again from what the phone has kept.
async function firstPicture(kept) {
  const { page, context } = await open(browser, 'phone', { isMobile: true });
  if (kept) {
    await page.goto(`${server.url}#/demo`);
    await page.waitForSelector('.sheet svg');
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.goto('about:blank');
  }
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  const begin = performance.now();
  await page.goto(`${server.url}#/demo`);
  await page.waitForSelector('.sheet svg');
  const took = performance.now() - begin;
  await context.close();
  return took;
}
for (const kept of [false, true]) {
  const times = [];
  for (let i = 0; i < kRounds; i += 1) times.push(await firstPicture(kept));
  row(`first picture at 4x throttle, ${kept ? 'kept' : 'fetched'}`, median(times), 3000, 'ms');
}

// From the key to the frame that shows the picture.
async function keystrokes(size, what, prepare) {
  const { page, context } = await open(browser, size);
  await page.goto(`${server.url}#/demo`);
  await page.waitForSelector('.sheet svg');
  await prepare(page);
  const times = await page.evaluate(async () => {
    const field = document.querySelector('input.number');
    const out = [];
    for (let i = 0; i < 24; i += 1) {
      const wanted = `${36 + (i % 9)}°`;
      const begin = performance.now();
      field.value = wanted.slice(0, -1);
      field.dispatchEvent(new Event('input', { bubbles: true }));
      while (![...document.querySelectorAll('.sheet text')].some((text) => text.textContent === wanted)) {
        await new Promise((done) => { requestAnimationFrame(done); });
      }
      out.push(performance.now() - begin);
    }
    return out.slice(6);
  });
  row(`keystroke to picture, ${what}, ${size}`, median(times), 100, 'ms');
  await context.close();
}
const add = async (page, name) => {
  await page.getByRole('button', { name: 'Add a wall, stack, pipe, valley or slope' }).click();
  await page.getByRole('button', { name }).click();
  await page.evaluate(() => { location.hash = '#/job/demo/measure/slopes%5B0%5D.pitch'; });
  await page.waitForFunction(() => [...document.querySelectorAll('.sheet text')].some((text) => text.textContent === '40°'));
};
for (const size of ['phone', 'desk']) {
  await keystrokes(size, 'demo', async () => undefined);
  await keystrokes(size, 'demo with stack and pipe', async (page) => {
    await add(page, 'Chimney stack');
    await add(page, 'Pipe');
  });
}
await browser.close();
await server.stop();
