// A newcomer's whole path, from an empty start to a downloaded PDF, with a thumb and with a mouse.
import { readFileSync } from 'node:fs';
import { expect, launch, open, run, serve, sizes } from './support.mjs';

const server = await serve();
const browser = await launch();

const button = (page, name) => page.getByRole('button', { name, exact: true });

async function path(size) {
  const { page, context, complaints } = await open(browser, size);
  const press = (target) => (size === 'phone' ? target.tap() : target.click());
  await page.goto(server.url);
  await press(button(page, 'Plain tiles'));
  await page.waitForSelector('.sheet svg');
  const field = page.locator('input.number');

  // The pitch by the pad: what is typed moves the drawing.
  expect((await page.locator('h2').first().textContent()) === 'Pitch of the rafters', `${size}: the first question`);
  const before = await page.locator('.sheet').innerHTML();
  for (const key of ['back', 'back']) await press(button(page, key === 'back' ? 'Take the last one away' : key));
  await page.waitForSelector('.wrong-here');
  for (const key of ['4', '5']) await press(button(page, key));
  await page.waitForFunction((old) => document.querySelector('.sheet').innerHTML !== old, before);
  expect((await field.inputValue()) === '45', `${size}: the pad types`);
  await page.waitForFunction(() => [...document.querySelectorAll('.sheet text')].some((t) => t.textContent === '45°'));

  // A length in feet and inches, as written; a wrong one is told in words.
  await press(button(page, 'Next'));
  await field.fill('12 ft 6 in');
  await page.waitForFunction(() => [...document.querySelectorAll('.sheet text')].some((t) => t.textContent === '3810'));
  await field.fill('0');
  await page.waitForSelector('.wrong-here');
  expect(/more than 0/.test(await page.locator('.wrong-here').textContent()), `${size}: nought is told with what is accepted`);
  await field.fill('3800');
  await page.waitForSelector('.wrong-here', { state: 'detached' });

  // A wall, where the drawing is tapped.
  await press(button(page, 'Add a wall, stack, pipe, valley or slope'));
  const box = await page.locator('.sheet svg').boundingBox();
  const left = await page.evaluate(() => document.querySelector('.sheet .layer-outline path').getBoundingClientRect().left);
  const at = { x: left + 6, y: box.y + box.height / 2 };
  await (size === 'phone' ? page.touchscreen.tap(at.x, at.y) : page.mouse.click(at.x, at.y));
  const first = page.locator('.options button').first();
  await page.waitForFunction(() => /along the eaves/.test(document.querySelector('.question .from')?.textContent ?? ''));
  expect((await first.textContent()) === 'Wall up the left side', `${size}: a tap by the left edge offers the left wall first`);
  await press(first);
  await page.waitForSelector('h2:has-text("What the wall is of")');

  // And a stack without tapping.
  await press(button(page, 'Add a wall, stack, pipe, valley or slope'));
  await press(button(page, 'Chimney stack'));
  await page.waitForSelector('h2:has-text("Middle of the stack")');
  await page.waitForSelector('[data-tag="at/stack"]');

  // Lead: pieces, a why with its sum, a wrong detail with its reason.
  await press(page.getByRole('link', { name: /^Lead/ }));
  await page.waitForSelector('.pieces li');
  await press(page.locator('.junction', { hasText: 'left wall' }).locator('.pieces a').first());
  await page.waitForSelector('.whys .figure');
  await press(page.locator('.whys .figure').first());
  expect(/=/.test(await page.locator('.sum').first().textContent()), `${size}: a number shows its sum`);
  await press(page.getByRole('link', { name: 'All pieces here' }));
  const wrong = page.locator('.junction.here .details li', { has: page.locator('.judgement.wrong') }).first();
  const reason = (await wrong.locator('.reason').textContent()).trim();
  expect(reason.length > 20, `${size}: a wrong detail has its reason before it is chosen`);
  await press(wrong.getByRole('button'));
  await page.waitForSelector('.insisted');
  await page.waitForSelector('.findings li.wrong');
  expect((await page.locator('.ladder .rung.wrong').count()) > 0, `${size}: the ladder shows the broken rung`);
  await press(button(page, 'Let the plan choose'));
  await page.waitForSelector('.findings li.wrong', { state: 'detached' });

  // The order of work: the picture changes, ticks are kept.
  await press(page.getByRole('link', { name: 'On the roof: step by step' }));
  await page.waitForSelector('.on-roof .step');
  const one = await page.locator('.step').textContent();
  for (let i = 0; i < 3; i += 1) await press(button(page, 'Done, next'));
  expect((await page.locator('.step').textContent()) !== one, `${size}: the step changes`);
  await page.reload();
  await page.waitForSelector('.on-roof .step');
  expect(/^Step 4 of/.test(await page.locator('.on-roof header p').textContent()), `${size}: ticks outlive the page`);
  await press(page.getByRole('link', { name: 'Leave' }));

  // Papers.
  await press(page.getByRole('link', { name: /^Papers/ }));
  await press(button(page, 'Make the papers'));
  await page.waitForSelector('.paper-sheet', { timeout: 60_000 });
  const [download] = await Promise.all([page.waitForEvent('download'), press(page.locator('.paper-sheet'))]);
  const bytes = readFileSync(await download.path());
  expect(bytes.subarray(0, 5).toString() === '%PDF-' && bytes.length > 50_000, `${size}: the PDF is one`);
  expect(complaints.length === 0, `${size}: the console is quiet: ${complaints.join(' | ')}`);
  await context.close();
}

await run(Object.fromEntries(Object.keys(sizes).map((size) => [`newcomer at ${size}`, () => path(size)])));
