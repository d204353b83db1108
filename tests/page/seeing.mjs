// Seeing: nearer and along with wheel, fingers and keys, drawn anew for it; a tapped piece; a finding that leads to its
// field; a practice value that moves the lead.
import { expect, launch, open, run, serve } from './support.mjs';
import { button, heading, openDemo, pictured, press, toQuestion, toRung, word } from './walk.mjs';

const server = await serve();
const browser = await launch();

// How the picture lies: the scale it is drawn at, what part of it is seen, how large its type is on the screen.
const seen = (page) =>
  page.evaluate(() => {
    const svg = document.querySelector('.stage .sheet svg');
    const ring = [...svg.querySelectorAll('[data-tag^="mark/"]')].find((one) => one.tagName === 'text');
    return {
      scale: Number(svg.dataset.scale),
      box: svg.getAttribute('viewBox').split(' ').map(Number),
      type: ring ? ring.getBoundingClientRect().height : 0,
    };
  });
const drawnAnew = (page, scale) =>
  page.waitForFunction((old) => Number(document.querySelector('.stage .sheet svg').dataset.scale) !== old, scale);
const wide = ({ box, scale }) => box[2] / scale; // mm of roof from side to side

await run({
  'nearer by wheel and keys, and along': async () => {
    const { page, context, complaints } = await open(browser, 'desk');
    await openDemo(page, server.url);
    await toRung(page, 'layout');
    const whole = await seen(page);
    const sheet = await page.locator('.stage .sheet').boundingBox();
    await page.mouse.move(sheet.x + sheet.width / 3, sheet.y + sheet.height / 3);
    await page.mouse.wheel(0, -600);
    await drawnAnew(page, whole.scale);
    await page.waitForTimeout(400);
    const near = await seen(page);
    expect(wide(near) < wide(whole) / 2, `less of the roof is seen: ${wide(near)} of ${wide(whole)} mm`);
    const px = sheet.width / near.box[2];
    expect(Math.abs(px / 3.78 - 1) < 0.25, `it is drawn for that: a mm of paper is ${px} px`);
    await page.mouse.down();
    await page.mouse.move(sheet.x + sheet.width / 3 + 120, sheet.y + sheet.height / 3 + 40, { steps: 4 });
    await page.mouse.up();
    const along = await seen(page);
    expect(along.box[0] < near.box[0] && along.box[1] < near.box[1], 'dragged along');
    await page.locator('.stage .sheet').focus();
    await page.keyboard.press('ArrowRight');
    expect((await seen(page)).box[0] > along.box[0], 'and along by a key');
    await press(page, button(page, 'drawing.whole'));
    await page.waitForTimeout(500);
    expect(Math.abs((await seen(page)).scale / whole.scale - 1) < 0.02, 'whole again, drawn as at first');
    expect(complaints.length === 0, `the console is quiet: ${complaints.join(' | ')}`);
    await context.close();
  },
  'two fingers': async () => {
    const { page, context } = await open(browser, 'phone', { isMobile: true });
    await openDemo(page, server.url);
    await toRung(page, 'layout');
    const whole = await seen(page);
    const sheet = await page.locator('.stage .sheet').boundingBox();
    const session = await context.newCDPSession(page);
    const fingers = (apart) => [-1, 1].map((side) => ({ x: sheet.x + sheet.width / 2 + side * apart, y: sheet.y + sheet.height / 2, id: side + 1 }));
    await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(20) });
    for (let apart = 25; apart <= 80; apart += 5) {
      await session.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: fingers(apart) });
    }
    await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await drawnAnew(page, whole.scale);
    expect(wide(await seen(page)) < wide(whole) / 2, 'spread fingers bring it nearer');
    await context.close();
  },
  'lead opens near, and a tapped piece is told': async () => {
    const { page, context } = await open(browser, 'phone', { isMobile: true });
    await openDemo(page, server.url);
    await toRung(page, 'lead');
    await page.getByRole('button', { name: word('drawing.whole') }).waitFor();
    await page.waitForTimeout(400);
    const place = await page.evaluate(() => {
      const sheet = document.querySelector('.stage .sheet').getBoundingClientRect();
      for (const one of document.querySelectorAll('.stage .sheet path[data-tag^="piece/S"]')) {
        const box = one.getBoundingClientRect();
        const at = { x: box.x + box.width / 2, y: box.y + box.height / 2, wide: box.width, tag: one.dataset.tag };
        if (box.width > 8 && at.x > sheet.left && at.x < sheet.right && at.y > sheet.top + 20 && at.y < sheet.bottom - 20) return at;
      }
      return null;
    });
    expect(place !== null && place.wide > 30, `a soaker is wide enough for a finger: ${place?.wide} px`);
    await page.touchscreen.tap(place.x, place.y);
    await page.locator('.flat svg').waitFor();
    expect((await page.evaluate(() => location.hash)).includes(`/piece/${place.tag.split('/')[1]}/`), `the tapped piece opens: ${place.tag}`);
    await context.close();
  },
  'a finding leads to the field that mends it': async () => {
    const { page, context } = await open(browser, 'phone', { isMobile: true });
    await openDemo(page, server.url);
    await toQuestion(page, 'slopes[0].pitch');
    await page.locator('input.number').fill('22');
    await toRung(page, 'layout');
    const wrong = page.locator('.findings li.wrong').first();
    await wrong.waitFor();
    await press(page, wrong.getByRole('button', { name: word('findings.mend') }));
    await heading(page).getByText(word('ask.pitch')).waitFor();
    await page.locator('input.number').fill('40');
    await toRung(page, 'layout');
    await page.locator('.lead-in').waitFor();
    await page.locator('.findings li.wrong').waitFor({ state: 'detached' });
    await context.close();
  },
  'what is wrong elsewhere is told on every rung, with the way there': async () => {
    const { page, context } = await open(browser, 'desk');
    await openDemo(page, server.url);
    await toQuestion(page, 'slopes[0].rafter');
    await page.locator('input.number').fill('0');
    await page.locator('.wrong-here').waitFor();
    expect((await page.locator('.elsewhere').count()) === 0, 'at its own field it is told there');
    await toRung(page, 'lead');
    const told = page.locator('.elsewhere');
    await told.waitFor();
    const text = await told.innerText();
    expect(!/slopes|\$|\[|null/.test(text) && text.includes(word('ask.rafter')), `in words: ${text}`);
    await press(page, told.getByRole('link'));
    await heading(page).getByText(word('ask.rafter')).waitFor();
    await context.close();
  },
  'a practice value moves the lead': async () => {
    const { page, context } = await open(browser, 'desk');
    await openDemo(page, server.url);
    await page.evaluate(() => { location.hash = '#/job/demo/layout/practice/apron.cover'; });
    const rule = page.locator('.rules details[open] .rule');
    await rule.waitFor();
    expect(/[a-z]/.test(await rule.locator('.source').first().innerText()), 'with its source');
    await page.evaluate(() => { location.hash = '#/job/demo/lead/piece/S1'; });
    const size = () => page.locator('.panel .lead-in').innerText();
    await page.locator('.flat svg').waitFor();
    const before = await size();
    await page.evaluate(() => { location.hash = '#/job/demo/layout/practice/soaker.upstand'; });
    const own = page.locator('.rules details[open] .own');
    await own.getByRole('textbox').fill('100');
    await own.getByRole('button', { name: word('rule.set') }).click();
    await page.evaluate(() => { location.hash = '#/job/demo/lead/piece/S1'; });
    await page.waitForFunction((old) => {
      const now = document.querySelector('.panel .lead-in')?.innerText;
      return now !== undefined && now !== '' && now !== old;
    }, before);
    await pictured(page);
    await context.close();
  },
});
