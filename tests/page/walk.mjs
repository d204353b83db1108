// What a person does on the page, in the page's own words (web/src/words/en.json), so that a test reads as a walk.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './support.mjs';

export const words = JSON.parse(readFileSync(path.join(root, 'web/src/words/en.json'), 'utf8'));

export const word = (key, values = {}) => {
  if (!(key in words)) throw new Error(`the page has no word "${key}"`);
  return words[key].replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
};

// A finger on a phone, the mouse on a desk.
export const press = (page, place) => (page.viewportSize().width < 900 ? place.tap() : place.click());
export const button = (page, key) => page.getByRole('button', { name: word(key), exact: true });

export const pictured = (page) => page.locator('.sheet svg').first().waitFor();
// What is shown is of the job as it is now.
export const settled = (page) => page.locator('main.stage[aria-busy="true"]').waitFor({ state: 'detached' });
export const saved = (page) => page.locator('.saving.saved').waitFor();
export const heading = (page) => page.locator('.panel h2').first();

export async function openDemo(page, url) {
  await page.goto(`${url}#/demo`);
  await pictured(page);
}

export async function toRung(page, rung) {
  await press(page, page.locator('.ladder').getByRole('link', { name: word(`rung.${rung}`) }));
  await page.locator('.ladder [aria-current=page]', { hasText: word(`rung.${rung}`) }).waitFor();
}

// Waits until the question of that name is asked.
export const asked = (page, ask) => heading(page).getByText(word(`ask.${ask}`), { exact: true }).waitFor();

// By what the address says, as a link in a finding does.
export async function toQuestion(page, place) {
  await page.evaluate((to) => {
    location.hash = location.hash.replace(/(#\/job\/[^/]+)\/.*/, `$1/measure/${encodeURIComponent(to)}`);
  }, place);
  await page.waitForFunction((to) => decodeURIComponent(location.hash).endsWith(to), place);
}

// Types into the field with the page's own pad: every digit is a press.
export async function byPad(page, text, { over = true } = {}) {
  const pad = page.getByRole('group', { name: word('pad.name') });
  const field = page.locator('.field .number');
  while (over && (await field.inputValue()) !== '') {
    await press(page, pad.getByRole('button', { name: word('pad.back') }));
  }
  for (const digit of text) await press(page, pad.getByRole('button', { name: digit, exact: true }));
}

export async function downloaded(page, place) {
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, place)]);
  return { name: file.suggestedFilename(), path: await file.path() };
}
