// What the screens become as they are used: a wrong value, an opened why, an insisted detail, made papers. Each by axe, by the
// size of what is touched, with type twice as large, and in the made-up language.
import { axeSource, expect, launch, open, run, serve } from './support.mjs';
import { screens } from './screens.mjs';
import { openDemo, settled, word } from './walk.mjs';

const server = await serve();
const browser = await launch();
const only = process.argv[3];

// Visits every state in one window; what one of them changed is undone before the next.
async function each(size, options, look) {
  const { page, context } = await open(browser, size, { bypassCSP: true, reducedMotion: 'reduce', ...options });
  page.setDefaultTimeout(10_000);
  await openDemo(page, server.url);
  for (const [name, reach] of Object.entries(screens)) {
    if (only && name !== only) continue;
    await reach(page);
    await look(page, name);
    const undo = page.getByRole('banner').getByRole('button', { name: word('undo'), exact: true });
    while ((await undo.count()) > 0 && (await undo.isEnabled())) await undo.click();
    await settled(page);
  }
  await context.close();
}

async function axe(page, name) {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  const violations = await page.evaluate(async () => {
    const result = await globalThis.axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
      rules: { 'color-contrast-enhanced': { enabled: true } },
    });
    return result.violations.map((one) => `${one.id}: ${one.nodes.slice(0, 2).map((node) => node.html.slice(0, 100)).join(' || ')}`);
  });
  expect(violations.length === 0, `${name}: ${violations.join('; ')}`);
}

// A wet glove: 48 px both ways, unless it is a link within a sentence.
async function targets(page, name) {
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('button, a[href], summary, input, label.tick')]
      .filter((it) => it.checkVisibility() && !it.closest('p') && !(it.matches('input') && it.closest('label.tick')))
      .map((it) => ({ name: (it.ariaLabel ?? it.textContent).trim().slice(0, 30), box: it.getBoundingClientRect() }))
      .filter(({ box }) => box.height < 47.5 || box.width < 47.5)
      .map(({ name: of, box }) => `${of} ${Math.round(box.width)}×${Math.round(box.height)}`));
  expect(small.length === 0, `${name}: under 48 px: ${small.join(', ')}`);
}

// Nothing runs out sideways, no word is cut, and what can be pressed can be brought into sight and is not covered there.
async function large(page, name) {
  const session = await page.context().newCDPSession(page);
  await session.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
  await page.waitForFunction(() => parseFloat(getComputedStyle(document.documentElement).fontSize) === 32);
  await page.waitForTimeout(100);
  const faults = await page.evaluate(() => {
    const out = [];
    const wide = document.documentElement.scrollWidth - innerWidth;
    if (wide > 1) out.push(`the page is ${wide} px too wide`);
    for (const it of document.querySelectorAll('button, a[href], summary, input, h1, h2, h3, p')) {
      if (!it.checkVisibility() || it.closest('.unseen')) continue;
      const style = getComputedStyle(it);
      const what = `${it.tagName.toLowerCase()} "${(it.ariaLabel ?? it.textContent).trim().slice(0, 24)}"`;
      if (it.scrollWidth > it.clientWidth + 1 && style.overflowX !== 'visible' && style.textOverflow !== 'ellipsis' && it.tagName !== 'INPUT') out.push(`${what} is cut`);
      if (!it.matches('button, a[href], summary, input') || it.disabled) continue;
      it.scrollIntoView({ block: 'center', inline: 'center' });
      const box = it.getBoundingClientRect();
      const at = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
      if (!at || !(it === at || it.contains(at) || at.contains(it) || it.closest('label')?.contains(at))) out.push(`${what} is covered by ${at?.className || at?.tagName}`);
    }
    return out.slice(0, 6);
  });
  expect(faults.length === 0, `${name}: ${faults.join('; ')}`);
}

await run({
  'axe and targets, phone, light': () => each('phone', { isMobile: true, colorScheme: 'light' }, async (page, name) => {
    await axe(page, name);
    await targets(page, name);
  }),
  'axe, desk, dark': () => each('desk', { colorScheme: 'dark' }, axe),
  'type twice as large, phone': () => each('phone', { isMobile: true }, large),
  'type twice as large, desk': () => each('desk', {}, large),
});
