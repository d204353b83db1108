// The screens below the lead: cut, yard, price, papers, comparison, water. Part of screens.mjs's list.
import { button, press, word } from './walk.mjs';

export const toRest = (page, rest) =>
  page.evaluate((to) => {
    location.hash = `#/job/demo/${to}`;
  }, rest);

export const idle = (page) => page.locator('.working').waitFor({ state: 'detached', timeout: 60_000 });

// The cutting list is there and nothing is under way.
export const cutReady = async (page) => {
  await page.locator('.strip svg').first().waitFor();
  await page.locator('.sums').first().waitFor();
  await idle(page);
};
export const priced = async (page) => {
  await page.locator('.sums.whole .total').waitFor();
  await idle(page);
};

export const rungScreens = {
  water: async (page) => {
    await toRest(page, 'water');
    await page.locator('.frontiers li').first().waitFor();
  },
  'water-gives': async (page) => {
    await rungScreens.water(page);
    await press(page, button(page, 'water.turn_wind'));
    await page.locator('.limits svg').waitFor();
    await page.locator('.frontiers li.here').scrollIntoViewIfNeeded();
  },
  odds: async (page) => {
    await rungScreens.water(page);
    await press(page, button(page, 'odds.ask'));
    await page.locator('.odds .proven li, .odds .lead-in').first().waitFor({ timeout: 60_000 });
    await page.locator('.odds').scrollIntoViewIfNeeded();
  },
  leaks: async (page) => {
    await toRest(page, 'water/leaks');
    await press(page, button(page, 'leaks.add_found'));
    await page.getByLabel(word('leaks.piece')).selectOption('soaker');
    await page.getByLabel(word('leaks.course')).fill('12');
    await press(page, button(page, 'leaks.add_leak'));
    await page.locator('.suspects li').first().waitFor();
  },
  cut: async (page) => {
    await toRest(page, 'cut');
    await cutReady(page);
  },
  'cut-roll': async (page) => {
    await rungScreens.cut(page);
    await toRest(page, 'cut/R1');
    await page.locator('.cuts li').first().waitFor();
  },
  'cut-piece': async (page) => {
    await rungScreens['cut-roll'](page);
    await press(page, page.locator('.pieces-of a').first());
    await page.locator('.cuts li.lit').first().waitFor();
  },
  yard: async (page) => {
    await toRest(page, 'cut/yard');
    await page.locator('.yard-field').first().waitFor();
  },
  'yard-roll': async (page) => {
    await rungScreens.yard(page);
    await press(page, page.locator('details.all summary').nth(1));
    await press(page, page.locator('details[open] .sizes button').first());
    await page.locator('details[open] .opened').waitFor();
    await page.locator('details[open] .opened').scrollIntoViewIfNeeded();
  },
  price: async (page) => {
    await toRest(page, 'papers/price');
    await priced(page);
  },
  'price-why': async (page) => {
    await rungScreens.price(page);
    await press(page, page.locator('.lines .line', { hasText: 'Soakers' }).first());
    await press(page, page.locator('.opened .figure').first());
    await page.locator('.opened .sum').first().waitFor();
    await page.locator('.opened').first().scrollIntoViewIfNeeded();
  },
  'price-offer': async (page) => {
    await rungScreens.price(page);
    await page.getByLabel(word('offer.words')).fill('50 m of code 4 at 150 wide, £570');
    await page.keyboard.press('Enter');
    await page.locator('.offer .proven li').first().waitFor();
    await page.locator('.offer .proven').scrollIntoViewIfNeeded();
  },
  'paper-order': async (page) => {
    await toRest(page, 'papers/paper/order');
    await page.locator('.pages img').first().waitFor();
    await page.waitForFunction(() => [...document.querySelectorAll('.pages img')].every((one) => one.complete && one.naturalWidth > 0));
  },
  'hand-over': async (page) => {
    await toRest(page, 'papers');
    await button(page, 'hand.code').waitFor();
    await press(page, button(page, 'hand.code'));
    await page.locator('.code').waitFor();
    await page.locator('.code').scrollIntoViewIfNeeded();
  },
  compare: async (page) => {
    await toRest(page, 'papers/compare');
    await page.locator('.options.tall button').first().waitFor();
  },
};
