// Everything that a person can change can be undone and done again, to the byte.
import { readFileSync } from 'node:fs';
import { expect, launch, open, run, serve } from './support.mjs';
import { button, downloaded, openDemo, toQuestion, toRung, word } from './walk.mjs';

const server = await serve();
const browser = await launch();

await run({
  'undo and redo of everything': async () => {
    const { page, context } = await open(browser, 'desk');
    await openDemo(page, server.url);
    const file = async () => {
      const was = await page.evaluate(() => location.hash);
      await toRung(page, 'papers');
      const { path } = await downloaded(page, button(page, 'papers.job'));
      await page.evaluate((hash) => { location.hash = hash; }, was);
      return readFileSync(path, 'utf8');
    };
    const states = [await file()];
    const change = async (what, how) => {
      await how();
      const now = await file();
      expect(now !== states.at(-1), `${what} changes the job`);
      states.push(now);
    };
    const add = async (key) => {
      await toRung(page, 'measure');
      await page.locator('.question h2').waitFor();
      await button(page, 'add.start').click();
      await button(page, key).click();
    };

    await toRung(page, 'measure');
    await change('a number', async () => { await toQuestion(page, 'slopes[0].pitch'); await page.locator('input.number').fill('44'); });
    await change('a spread', async () => { await toQuestion(page, 'slopes[0].rafter'); await page.getByLabel(word('ask.spread')).fill('5'); });
    await change('a guess', async () => { await page.getByRole('button', { name: word('ask.guessed'), exact: true }).click(); });
    await change('a unit', async () => { await toQuestion(page, 'slopes[0].width'); await page.getByRole('button', { name: 'm', exact: true }).click(); });
    await change('a choice', async () => { await toQuestion(page, 'site.exposure'); await button(page, 'choice.severe').click(); });
    await change('the title', async () => { await page.getByLabel(word('job.title')).fill('Another name'); });
    for (const key of ['add.top', 'add.stack', 'add.pipe', 'add.valley', 'add.slope']) await change(key, () => add(key));
    await change('taking away', async () => {
      await page.getByText(word('measure.things'), { exact: true }).click();
      await page.getByRole('button', { name: new RegExp(`^${word('measure.remove')} ${word('add.name.pipe')}`) }).click();
    });
    await change('insisting on a detail', async () => {
      await toRung(page, 'lead');
      await page.locator('.junction h3 a', { hasText: 'house wall' }).first().click();
      await page.locator('.junction.here').getByRole('button', { name: word('detail.insist') }).first().click();
    });
    await change('a headlap of the tables', async () => {
      await toRung(page, 'layout');
      await page.locator('section', { hasText: word('layout.headlaps') }).locator('.options button').first().click();
    });
    await change('a practice value', async () => {
      await page.getByRole('link', { name: word('practice.open') }).click();
      await page.locator('.rules summary').first().click();
      const own = page.locator('.rules details[open] .own');
      await own.getByRole('textbox').fill('160');
      await own.getByRole('button', { name: word('rule.set') }).click();
    });

    const undo = button(page, 'undo');
    const redo = button(page, 'redo');
    for (let i = states.length - 2; i >= 0; i -= 1) {
      await undo.click();
      expect((await file()) === states[i], `undone to state ${i} of ${states.length - 1}`);
    }
    expect(await undo.isDisabled(), 'nothing is left to undo');
    for (let i = 1; i < states.length; i += 1) {
      await redo.click();
      expect((await file()) === states[i], `done again to state ${i}`);
    }
    expect(await redo.isDisabled(), 'nothing is left to do again');
    await context.close();
  },
});
