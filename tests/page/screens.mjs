// Every screen of the page, and how one gets to it from the demo. Tests and pictures go through this one list.
import { rungScreens } from './rung_screens.mjs';
import { button, heading, pictured, press, toQuestion, word } from './walk.mjs';

const job = (rest) => (page) =>
  page.evaluate((to) => {
    location.hash = `#/job/demo/${to}`;
  }, rest);

export const screens = {
  jobs: async (page) => {
    await page.evaluate(() => {
      location.hash = '#/';
    });
    await page.getByRole('heading', { level: 1, name: word('app.name') }).waitFor();
    await page.locator('.job-list li').first().waitFor();
  },
  missing: async (page) => {
    await page.evaluate(() => {
      location.hash = '#/job/none/measure';
    });
    await page.getByRole('alert').waitFor();
  },
  'measure-pitch': async (page) => {
    await job('measure')(page);
    await toQuestion(page, 'slopes[0].pitch');
    await page.locator('.field .number').waitFor();
    await pictured(page);
  },
  'measure-length': async (page) => {
    await screens['measure-pitch'](page);
    await toQuestion(page, 'slopes[0].rafter');
    await heading(page).getByText(word('ask.rafter')).waitFor();
  },
  'measure-inches': async (page) => {
    await screens['measure-pitch'](page);
    await toQuestion(page, 'slopes[0].junctions[0].gap');
    await heading(page).getByText(word('ask.gap')).waitFor();
    await press(page, page.getByRole('button', { name: 'in', exact: true }));
  },
  'measure-choice': async (page) => {
    await screens['measure-pitch'](page);
    await toQuestion(page, 'slopes[0].covering.kind');
    await page.locator('.options').waitFor();
  },
  'measure-wrong': async (page) => {
    await screens['measure-pitch'](page);
    await page.locator('.field .number').fill('95');
    await page.locator('.wrong-here').waitFor();
  },
  'measure-add': async (page) => {
    await screens['measure-pitch'](page);
    await press(page, button(page, 'add.start'));
    await heading(page).getByText(word('add.what')).waitFor();
  },
  'measure-all': async (page) => {
    await screens['measure-pitch'](page);
    await press(page, page.locator('details.all summary').first());
    await press(page, page.locator('details.all summary').nth(1));
  },
  layout: async (page) => {
    await job('layout')(page);
    await pictured(page);
    await page.locator('.whys .figure').first().waitFor();
  },
  'layout-why': async (page) => {
    await screens.layout(page);
    await press(page, page.locator('.whys .figure').first());
    await page.locator('.opened').waitFor();
    await page.locator('.opened').scrollIntoViewIfNeeded();
  },
  'layout-practice': async (page) => {
    await job('layout/practice')(page);
    await page.locator('.rules li').first().waitFor();
  },
  'layout-practice-open': async (page) => {
    await screens['layout-practice'](page);
    await press(page, page.locator('.rules summary').first());
    await page.locator('.rules details[open]').waitFor();
  },
  lead: async (page) => {
    await job('lead')(page);
    await pictured(page);
    await page.locator('.pieces a').first().waitFor();
  },
  'lead-junction': async (page) => {
    await job('lead/at/rear/house%20wall')(page);
    await page.locator('.junction.here').waitFor();
    await page.locator('.junction.here').scrollIntoViewIfNeeded();
  },
  'lead-wrong': async (page) => {
    await screens['lead-junction'](page);
    await press(page, button(page, 'detail.insist').first());
    await page.locator('.insisted').first().waitFor();
    await page.locator('.insisted').first().scrollIntoViewIfNeeded();
  },
  'lead-piece': async (page) => {
    await screens.lead(page);
    await press(page, page.locator('.pieces a').first());
    await page.locator('.flat svg').waitFor();
  },
  'lead-piece-why': async (page) => {
    await screens['lead-piece'](page);
    await press(page, page.locator('.whys .figure').first());
    await page.locator('.opened').waitFor();
    await page.locator('.opened').scrollIntoViewIfNeeded();
  },
  ...rungScreens,
  papers: async (page) => {
    await job('papers')(page);
    await pictured(page);
  },
  'papers-made': async (page) => {
    await screens.papers(page);
    await press(page, button(page, 'papers.make'));
    await page.locator('.paper-sheet').waitFor();
  },
  roof: async (page) => {
    await job('roof')(page);
    await page.locator('.on-roof .step').waitFor();
    await pictured(page);
  },
};

