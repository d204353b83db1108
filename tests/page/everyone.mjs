// The page for everyone: axe on every screen, the keyboard alone, every word in the catalogue.
import { axeSource, expect, launch, open, run, serve } from './support.mjs';

const server = await serve();
const browser = await launch();
const kScreens = {
  jobs: '#/',
  question: '#/job/demo/measure/slopes%5B0%5D.rafter',
  choice: '#/job/demo/measure/slopes%5B0%5D.covering.kind',
  layout: '#/job/demo/layout',
  practice: '#/job/demo/layout/practice',
  lead: '#/job/demo/lead',
  detail: '#/job/demo/lead/at/rear/house%20wall',
  piece: '#/job/demo/lead/piece/S1/house%20wall',
  water: '#/job/demo/water/rear/house%20wall',
  cut: '#/job/demo/cut',
  roll: '#/job/demo/cut/R1/S1',
  yard: '#/job/demo/cut/yard',
  papers: '#/job/demo/papers',
  price: '#/job/demo/papers/price',
  paper: '#/job/demo/papers/paper/order',
  compare: '#/job/demo/papers/compare',
  roof: '#/job/demo/roof',
};

async function visit(page, hash) {
  await page.goto(`${server.url}${hash}`);
  await page.waitForSelector(hash === '#/' ? '.job-list li' : '.sheet svg, .strip svg, .pages img');
  if (hash.includes('layout') || hash.includes('piece')) await page.waitForSelector('.whys li, .rules li');
  for (const details of await page.locator('details:not([open]) > summary').all()) {
    if (await details.isVisible()) await details.click().catch(() => undefined);
    if (hash.includes('practice')) break;
  }
}

async function begin(size, options = {}, query = '') {
  const opened = await open(browser, size, options);
  await opened.page.goto(`${server.url}${query}#/demo`);
  await opened.page.waitForSelector('.sheet svg');
  return opened;
}

const checks = {};
// The other two of the four are states.mjs's, which also looks at what screens become in use, and with larger type.
for (const [size, theme] of [['phone', 'dark'], ['desk', 'light']]) {
  checks[`axe at ${size}, ${theme}`] = async () => {
    // axe is put in from outside, which the page's own policy would refuse.
    const { page, context } = await begin(size, { colorScheme: theme, bypassCSP: true, reducedMotion: 'reduce' });
    for (const [name, hash] of Object.entries(kScreens)) {
      await visit(page, hash);
      await page.evaluate(axeSource);
      const { violations } = await page.evaluate(() =>
        globalThis.axe.run(document, {
          runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
          rules: { 'color-contrast-enhanced': { enabled: true } },
        }));
      for (const one of violations) {
        expect(false, `${name}: ${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => `${node.html.slice(0, 120)} ${node.failureSummary?.split('\n')[1] ?? ''}`).join(' || ')}`);
      }
    }
    await context.close();
  };
}

checks['the keyboard alone'] = async () => {
  const { page, context } = await begin('desk');
  await page.goto(`${server.url}#/`);
  await page.waitForSelector('.job-list li');
  const focused = () => page.evaluate(() => {
    const { activeElement: it } = document;
    return { text: (it?.getAttribute('aria-label') ?? it?.textContent ?? '').trim(), ring: it ? getComputedStyle(it).outlineStyle : '' };
  });
  const tabTo = async (wanted) => {
    for (let i = 0; i < 120; i += 1) {
      await page.keyboard.press('Tab');
      const here = await focused();
      if (wanted.test(here.text)) {
        expect(here.ring !== 'none', `the focus on "${here.text.slice(0, 30)}" is seen`);
        return true;
      }
    }
    expect(false, `${wanted} is reached by Tab`);
    return false;
  };
  await tabTo(/^Slates$/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.sheet svg');
  await tabTo(/^Add a wall/);
  await page.keyboard.press('Enter');
  await tabTo(/^Wall up the left side/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('h2:has-text("What the wall is of")');
  await tabTo(/^Lead/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.pieces li');
  await tabTo(/^S1/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.whys .figure');
  await tabTo(/mm/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.sum');
  await tabTo(/^Papers/);
  await page.keyboard.press('Enter');
  await tabTo(/^Make the papers/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.paper-sheet', { timeout: 60_000 });
  await tabTo(/^The sheets/);
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(download.suggestedFilename().endsWith('.pdf'), 'a PDF');
  // The drawing by keys: nearer, along, whole again.
  await page.locator('.sheet').focus();
  const box = () => page.evaluate(() => document.querySelector('.sheet svg').getAttribute('viewBox'));
  const whole = await box();
  await page.keyboard.press('+');
  await page.keyboard.press('ArrowRight');
  expect((await box()) !== whole, 'the drawing comes nearer');
  await page.keyboard.press('0');
  expect((await box()) === whole, 'and is whole again');
  await context.close();
};

checks['no word is left out of the catalogue'] = async () => {
  const { page, context } = await begin('desk', {}, '?lang=x-pseudo');
  for (const [name, hash] of Object.entries(kScreens)) {
    await page.goto(`${server.url}?lang=x-pseudo${hash}`);
    await page.waitForSelector(hash === '#/' ? '.job-list li' : '.sheet svg, .strip svg, .pages img');
    await page.waitForTimeout(300);
    const left = await page.evaluate(() => {
      const out = [];
      const isOurs = (element) => !element.closest('[data-engine], [data-own], .sheet, script, style');
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const text = node.textContent.trim();
        if (/\p{L}{2}/u.test(text) && !/[⟦⟧]/.test(text) && node.parentElement && isOurs(node.parentElement)) {
          const whole = node.parentElement.textContent;
          if (!/⟦[^⟧]*$/.test(whole.slice(0, whole.indexOf(text)))) out.push(text.slice(0, 50));
        }
      }
      for (const element of document.querySelectorAll('[aria-label], [title], [placeholder]')) {
        for (const attribute of ['aria-label', 'title', 'placeholder']) {
          const text = element.getAttribute(attribute);
          if (text && /\p{L}{2}/u.test(text) && !/[⟦⟧]/.test(text) && isOurs(element)) out.push(`${attribute}: ${text}`);
        }
      }
      return out;
    });
    // Units are the same in every language.
    const words = left.filter((text) => !/^(mm|in|ft|m)$/.test(text));
    expect(words.length === 0, `${name}: ${words.join(' | ')}`);
  }
  await context.close();
};

checks['numbers, targets, hands'] = async () => {
  const { page, context } = await begin('phone');
  await page.goto(`${server.url}${kScreens.question}`);
  await page.waitForSelector('.sheet svg');
  const size = await page.evaluate(() => parseFloat(getComputedStyle(document.querySelector('input.number')).fontSize));
  expect(size >= 32, `the number asked for is ${size} px high`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('button, .button, .ladder a, input')]
      .filter((it) => it.checkVisibility())
      .map((it) => ({ name: it.textContent || it.ariaLabel, box: it.getBoundingClientRect() }))
      .filter(({ box }) => box.height < 47.5 || box.width < 40)
      .map(({ name, box }) => `${name} ${Math.round(box.width)}×${Math.round(box.height)}`));
  expect(small.length === 0, `targets under 48 px: ${small.join(', ')}`);
  const pad = await page.locator('.pad').boundingBox();
  const onward = await page.locator('.onward').boundingBox();
  expect(pad.y + pad.height <= onward.y + 2, 'the whole pad is seen above the way onward');
  await page.goto(`${server.url}#/`);
  await page.getByRole('button', { name: 'left hand' }).click();
  await page.goto(`${server.url}${kScreens.question}`);
  await page.waitForSelector('.sheet svg');
  const back = await page.getByRole('button', { name: 'Back', exact: true }).boundingBox();
  const next = await page.getByRole('button', { name: 'Next', exact: true }).boundingBox();
  expect(next.x < back.x, 'for the left hand, onward is at the left');
  await context.close();
};

await run(checks);
