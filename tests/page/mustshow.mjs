// From `./run --open`, with a thumb or a mouse alone: change the pitch of the demo, add a stack, insist on a wrong detail and
// read why, step through the order of work, take the sheets. Then the server is killed, the page loaded again, and all of it done again.
import { execFileSync } from 'node:child_process';
import { expect, launch, open, run, sizes } from './support.mjs';
import { folderHost } from './folder_host.mjs';
import { button, downloaded, heading, openDemo, pictured, press, toRung, word } from './walk.mjs';

const browser = await launch();

async function changePitch(page, pitch) {
  const pad = page.getByRole('group', { name: word('pad.name') });
  await heading(page).getByText(word('ask.pitch')).waitFor();
  while ((await page.locator('input.number').inputValue()) !== '') {
    await press(page, pad.getByRole('button', { name: word('pad.back') }));
  }
  for (const digit of pitch) await press(page, pad.getByRole('button', { name: digit, exact: true }));
  await page.waitForFunction(
    (text) => [...document.querySelectorAll('.sheet text')].some((one) => one.textContent === text),
    `${pitch}°`,
  );
}

// Where the finger comes down is where it is drawn.
async function addStack(page, name) {
  await press(page, button(page, 'add.start'));
  const roof = await page.locator('.sheet svg').boundingBox();
  const at = { x: roof.x + roof.width / 2, y: roof.y + roof.height / 2 };
  if (page.viewportSize().width < 900) await page.touchscreen.tap(at.x, at.y);
  else await page.mouse.click(at.x, at.y);
  await page.waitForFunction(() => /\d+ mm/.test(document.querySelector('.question .from').textContent));
  await press(page, button(page, 'add.stack'));
  const drawn = page.locator(`.sheet [data-tag="at/${name}"]`).first();
  await drawn.waitFor({ state: 'attached' });
  const box = await page.evaluate((tag) => {
    const boxes = [...document.querySelectorAll(`.sheet [data-tag="${tag}"]`)].map((one) => one.getBoundingClientRect());
    return { left: Math.min(...boxes.map((b) => b.left)), right: Math.max(...boxes.map((b) => b.right)) };
  }, `at/${name}`);
  expect(box.left < at.x + 12 && box.right > at.x - 12, `the ${name} stands across the place that was tapped`);
}

async function insist(page) {
  await toRung(page, 'lead');
  await press(page, page.locator('.junction h3 a', { hasText: 'house wall' }));
  const wrong = page.locator('.junction.here .details li', { has: page.locator('.judgement.wrong') }).first();
  const reason = (await wrong.locator('.reason').innerText()).trim();
  expect(/ /.test(reason) && reason.length > 30, `a wrong detail says why before it is taken: ${reason}`);
  await press(page, wrong.getByRole('button'));
  await page.locator('.insisted').first().waitFor();
  await page.locator('.findings li.wrong').first().waitFor();
  const found = await page.locator('.findings li.wrong p').first().innerText();
  expect(found.length > 30, `and after: ${found}`);
  const rung = page.locator('.ladder').getByRole('link', { name: word('rung.lead') });
  expect((await rung.innerText()).includes(word('rung.state.wrong')), 'the rung says wrong');
  await press(page, button(page, 'detail.let_go'));
  await page.locator('.insisted').waitFor({ state: 'detached' });
}

async function stepThrough(page) {
  await press(page, page.getByRole('link', { name: word('roof.start') }));
  const step = page.locator('.on-roof .step');
  const shown = () => page.locator('.sheet svg').evaluate((svg) => svg.outerHTML);
  const texts = [];
  const pictures = new Set();
  for (let i = 0; i < 5; i += 1) {
    texts.push(await step.innerText());
    pictures.add(await shown());
    await press(page, page.locator('.on-roof .next'));
    await page.waitForFunction((old) => document.querySelector('.on-roof .step').innerText !== old, texts.at(-1)).catch(() => undefined);
  }
  expect(new Set(texts).size >= 4, `every step says something else: ${[...new Set(texts)].join(' | ')}`);
  expect(pictures.size >= 2, 'the picture follows the steps');
  await press(page, page.getByRole('link', { name: word('roof.leave') }));
}

async function takeSheets(page, pitch) {
  await toRung(page, 'papers');
  await press(page, button(page, 'papers.make'));
  const sheets = page.locator('.paper-sheet');
  await sheets.waitFor({ timeout: 60_000 });
  const pdf = await downloaded(page, sheets);
  expect(/^hollin-barn.*\.pdf$/.test(pdf.name), `the file is named after the job: ${pdf.name}`);
  const text = execFileSync('pdftotext', ['-layout', pdf.path, '-'], { maxBuffer: 1e8 }).toString();
  for (const said of ['Hollin Barn', `${pitch}°`, 'stack']) expect(text.includes(said), `the sheets say "${said}"`);
}

async function whole(page, pitch, stack) {
  await changePitch(page, pitch);
  await addStack(page, stack);
  await insist(page);
  await stepThrough(page);
  await takeSheets(page, pitch);
}

const checks = {};
for (const size of Object.keys(sizes)) {
  checks[`served, then with the server killed, at ${size}`] = async () => {
    const server = await folderHost();
    const { page, context, complaints } = await open(browser, size);
    await openDemo(page, server.url);
    await whole(page, '44', word('add.name.stack'));
    await page.locator('.saving.saved').waitFor();
    const kept = server.kept();
    expect(kept.length === 1 && kept[0].slopes[0].pitch === 44, 'the folder has the job as it was left');
    expect(complaints.length === 0, `the console is quiet: ${complaints.join(' | ')}`);

    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await server.kill();
    await page.reload();
    await pictured(page);
    await toRung(page, 'measure');
    expect((await page.locator('input.number').inputValue()) === '44', 'with the server gone the job is as it was left');
    await whole(page, '46', `${word('add.name.stack')} 2`);

    // Back again: what was done meanwhile comes to the folder, by itself or by the person's choice, and is not lost.
    await server.again();
    await page.reload();
    await pictured(page);
    await toRung(page, 'measure');
    expect((await page.locator('input.number').inputValue()) === '46', 'with the server back it is what was done without it');
    const mine = button(page, 'save.keep_mine');
    if (await mine.isVisible()) await press(page, mine);
    await page.locator('.saving.saved').waitFor();
    expect(server.kept().some((job) => job.slopes[0].pitch === 46), 'and the folder has it');
    await context.close();
    await server.kill();
  };
}
await run(checks);
