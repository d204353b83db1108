// The rungs below the lead, as a person uses them: a roll's cuts ticked, the yard edited, a price argued with, papers looked
// at, versions compared, the weather turned until a junction gives.
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { cutReady, priced, rungScreens, toRest } from './rung_screens.mjs';
import { expect, launch, open, root, run, serve } from './support.mjs';
import { button, downloaded, openDemo, press, pictured, saved, toRung, word } from './walk.mjs';

const jsqr = createRequire(path.join(root, 'web/package.json'))('jsqr');
const jsQR = jsqr.default ?? jsqr; // a reader that is not ours
const server = await serve();
const browser = await launch();

async function begin(size, options = {}) {
  const opened = await open(browser, size, { isMobile: size === 'phone', reducedMotion: 'reduce', ...options });
  await openDemo(opened.page, server.url);
  return opened;
}
const ends = async ({ context, complaints }, what) => {
  expect(complaints.length === 0, `${what}: the console is quiet: ${complaints.join(' | ')}`);
  await context.close();
};

const amountOf = (text) => Number(/[\d,]+\.\d\d/.exec(text)?.[0].replace(/,/g, '') ?? NaN);
const amounts = async (place) => (await place.allTextContents()).map(amountOf);
const near = (a, b) => Math.abs(a - b) < 0.005;
const field = (page, key, values) => page.getByLabel(word(key, values), { exact: true }).first();
const planOf = async (page) => {
  const file = await downloaded(page, page.getByRole('button', { name: 'plan.json' }));
  return JSON.parse(readFileSync(file.path, 'utf8'));
};

const checks = {};

for (const size of ['phone', 'desk']) {
  checks[`cut, ${size}: rolls to scale, cuts in order, ticks kept`] = async () => {
    const opened = await begin(size);
    const { page } = opened;
    await toRung(page, 'cut');
    await cutReady(page);
    // One scale for all: the drawn lengths are to each other as the rolls are.
    const rolls = await page.locator('.roll').evaluateAll((all) =>
      all.map((roll) => {
        const [, width, length] = /([\d.]+) × ([\d.]+) mm/.exec(roll.textContent) ?? [];
        const outline = [...roll.querySelectorAll('svg path.outline')].map((one) => one.getBoundingClientRect()).sort((a, b) => b.width - a.width)[0];
        return { width: Number(width), length: Number(length), drawn: { width: outline.width, height: outline.height } };
      }));
    expect(rolls.length > 0, 'there are rolls');
    for (const roll of rolls) {
      const scale = rolls[0].drawn.width / rolls[0].length;
      expect(Math.abs(roll.drawn.width - roll.length * scale) < 2 && Math.abs(roll.drawn.height - roll.width * scale) < 2, `to scale: ${JSON.stringify(roll)}`);
    }
    // Every piece of the plan lies on a roll.
    const marks = await page.evaluate(() => {
      const count = {};
      for (const one of document.querySelectorAll('.strip [data-tag^="cut/"]')) {
        const mark = one.getAttribute('data-tag').split('/')[3];
        count[mark] = (count[mark] ?? 0) + 1;
      }
      return count;
    });
    await toRung(page, 'lead');
    await page.locator('.pieces a').first().waitFor();
    const wanted = {};
    for (const one of await page.locator('.pieces a').all()) {
      const mark = await one.locator('.ring').textContent();
      wanted[mark] = (wanted[mark] ?? 0) + Number.parseInt(await one.locator('.times').textContent(), 10);
    }
    expect(JSON.stringify(Object.entries(marks).sort()) === JSON.stringify(Object.entries(wanted).sort()), `cut ${JSON.stringify(marks)}, wanted ${JSON.stringify(wanted)}`);
    // A roll is opened, a cut ticked; the tick is there after a reload.
    await toRung(page, 'cut');
    await cutReady(page);
    await press(page, page.locator('.roll h2 a').first());
    const first = page.locator('.cuts > li').first();
    await first.waitFor();
    const distances = (await first.locator('.tape b').allTextContents()).map(Number);
    expect(distances.length > 0 && distances.every((at, i) => i === 0 || at > distances[i - 1]), `tape distances run on: ${distances}`);
    await press(page, first.locator('label.tick'));
    await page.locator('.cuts > li.done').waitFor();
    await page.reload();
    await page.locator('.cuts > li.done').waitFor();
    expect((await page.locator('.cuts > li.done').count()) === 1, 'one cut is ticked');
    // A piece on the strip is pressed: it is lit there and in the cuts that give it.
    await page.locator('.roll.here .strip [data-tag^="cut/"]').first().evaluate((one) => one.dispatchEvent(new MouseEvent('click', { bubbles: true })));
    await page.locator('.cuts > li.lit').first().waitFor();
    await page.locator('.roll.here .strip .lit').first().waitFor();
    await ends(opened, 'cut');
  };
}

checks['cut: looked at for longer it is no dearer, stopped it is whole'] = async () => {
  const opened = await begin('desk');
  const { page } = opened;
  await rungScreens.cut(page);
  const cost = async () => amountOf(await page.locator('.sums').first().locator('div').last().textContent());
  const first = await cost();
  await press(page, button(page, 'cut.harder'));
  await page.locator('.working').waitFor();
  await page.locator('.working').waitFor({ state: 'detached', timeout: 60_000 });
  const second = await cost();
  expect(second <= first + 0.005, `${second} after ${first}`);
  expect(/at most [\d.]+ %|proven/.test(await page.locator('.proven').first().textContent()), 'how far from the best is said');
  // The next look is long: it is stopped, and a whole list stands.
  await press(page, button(page, 'cut.harder'));
  const enough = button(page, 'cut.enough');
  await enough.waitFor();
  await page.waitForFunction(() => !document.querySelector('.working button')?.disabled);
  await press(page, enough);
  await page.locator('.working').waitFor({ state: 'detached', timeout: 20_000 });
  expect((await cost()) <= second + 0.005, 'stopped, it is no dearer');
  expect((await page.locator('.strip svg').count()) > 0, 'the rolls are there');
  await ends(opened, 'longer');
};

checks['yard: a wrong value is told at its field; a price changes what is paid; it is kept'] = async () => {
  const opened = await begin('phone');
  const { page } = opened;
  await rungScreens.price(page);
  const before = amountOf(await page.locator('.sums.whole .total').textContent());
  await rungScreens.yard(page);
  expect(await page.getByText(word('yard.invented')).first().isVisible(), 'invented prices say so');
  const hour = field(page, 'yard.per_hour');
  await hour.fill('nonsense');
  await page.locator('.yard-field.is-wrong').waitFor();
  expect((await page.locator('.yard-field.is-wrong').count()) === 1, 'one field is wrong');
  expect((await page.locator('.yard-field.is-wrong').textContent()).includes(word('yard.money_wrong')), 'in words, there');
  await toRest(page, 'papers/price');
  await page.getByText(word('yard.wrong.one')).waitFor();
  await rungScreens.yard(page);
  await hour.fill('63.00');
  await page.waitForFunction(() => !document.querySelector('.is-wrong'));
  await page.getByText(word('yard.state.saved')).waitFor();
  // Every line of work costs twice as much now.
  await page.reload();
  await page.locator('.yard-field').first().waitFor();
  expect((await hour.inputValue()) === '63.00', 'it is kept');
  await toRest(page, 'papers/price');
  await page.waitForFunction((was) => {
    const total = document.querySelector('.sums.whole .total')?.textContent ?? '';
    return total !== '' && !total.includes(was);
  }, before.toLocaleString('en-GB', { minimumFractionDigits: 2 }));
  const work = page.locator('.price-group', { has: page.getByRole('heading', { name: word('price.group.labour') }) });
  expect((await work.locator('.line .sum').allTextContents()).every((text) => text.includes('£63.00')), 'an hour is 63.00');
  // Emptied, a price is missing, and never nought.
  await rungScreens.yard(page);
  await field(page, 'yard.item.finishing.oil').fill('');
  await page.getByText(word('yard.missing')).waitFor();
  await toRest(page, 'papers/price');
  await page.getByText(word('price.some_missing.one')).waitFor();
  expect(await page.getByText(word('price.missing'), { exact: true }).isVisible(), 'the line says so');
  // Back to the built-in one, and back again.
  await rungScreens.yard(page);
  await press(page, button(page, 'yard.restore'));
  await page.waitForFunction(() => [...document.querySelectorAll('input')].some((one) => one.value === '31.50'));
  await press(page, button(page, 'yard.undo'));
  await page.waitForFunction(() => [...document.querySelectorAll('input')].some((one) => one.value === '63.00'));
  await ends(opened, 'yard');
};

checks['yard: rolls, stock and offcuts; a file out and in; a file that is none'] = async () => {
  const opened = await begin('desk');
  const { page } = opened;
  await rungScreens['yard-roll'](page);
  const stock = field(page, 'yard.in_stock');
  for (const [value, words] of [['-1', word('fault.least', { least: '1' })], ['0', word('fault.least', { least: '1' })], ['x', word('fault.not_a_number')]]) {
    await stock.fill(value);
    await page.locator('.yard-field.is-wrong', { has: stock }).waitFor();
    expect((await page.locator('.yard-field.is-wrong').first().textContent()).toLowerCase().includes(words.toLowerCase()), `stock ${value}: ${await page.locator('.yard-field.is-wrong').first().textContent()}`);
  }
  await stock.fill('2');
  await page.waitForFunction(() => !document.querySelector('.is-wrong'));
  const width = field(page, 'yard.width');
  await width.fill('0');
  await page.locator('.yard-field.is-wrong').first().waitFor();
  await width.fill('150');
  await page.waitForFunction(() => !document.querySelector('.is-wrong'));
  // An offcut of code 3 that takes soakers is used, and is not paid for again.
  await press(page, button(page, 'yard.add_offcut'));
  const rack = page.locator('.rack li').last();
  await rack.getByLabel(word('yard.code_is')).fill('3');
  await rack.getByLabel(word('yard.width')).fill('600');
  await rack.getByLabel(word('yard.length')).fill('2400');
  await page.getByText(word('yard.state.saved')).waitFor();
  await rungScreens.cut(page);
  await page.locator('.buy', { hasText: word('cut.from_rack') }).waitFor();
  // The file that is saved is read again as the same yard.
  await rungScreens.yard(page);
  const file = await downloaded(page, button(page, 'yard.export'));
  const text = readFileSync(file.path, 'utf8');
  const yard = JSON.parse(text);
  expect(yard.format === 'lapwright-yard/1' && yard.offcuts.length === 1 && yard.prices_are === 'invented', 'a yard file');
  const bring = async (content) => {
    const there = path.join(tmpdir(), `lapwright-yard-${process.pid}.json`);
    writeFileSync(there, content);
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press(page, button(page, 'yard.import'))]);
    await chooser.setFiles(there);
  };
  await bring(JSON.stringify({ ...yard, currency: 'EUR', title: 'Another rack', prices: [{ item: 'covering.unit', price: 85, per: 'piece', currency: 'USD' }] }));
  await page.getByText(word('yard.refused')).waitFor();
  expect(/USD.*EUR/.test(await page.locator('.wrong-here').first().textContent()), 'the wrong currency is named');
  expect((await page.locator('.rack li').count()) === 1, 'nothing was changed');
  await bring(JSON.stringify({ ...yard, title: 'Another rack', offcuts: [], prices_are: 'own' }));
  await page.waitForFunction(() => document.querySelectorAll('.rack li').length === 0);
  expect((await field(page, 'yard.name').inputValue()) === 'Another rack', 'another yard is here');
  expect((await page.getByText(word('yard.invented')).count()) === 0, 'and its prices are its own');
  await ends(opened, 'yard file');
};

checks['price: lines add up to the penny, and are argued with'] = async () => {
  const opened = await begin('desk');
  const { page } = opened;
  await rungScreens.price(page);
  const sums = Object.fromEntries(
    await page.locator('.sums.whole > div').evaluateAll((all) => all.map((one) => [one.className, one.querySelector('dd').textContent])));
  const of = (name) => amountOf(sums[name]);
  const groups = {};
  for (const group of await page.locator('.price-group').all()) {
    const lines = await amounts(group.locator('.line .amount'));
    const head = amountOf(await group.locator('h3 .amount').textContent());
    expect(near(head, lines.reduce((a, b) => a + b, 0)), `${await group.locator('h3').textContent()}: lines add up`);
    groups[(await group.locator('h3 span').textContent()).trim()] = head;
  }
  const materials = Object.entries(groups).filter(([name]) => ![word('price.group.labour'), word('price.group.access')].includes(name));
  expect(near(of('materials'), materials.reduce((all, [, one]) => all + one, 0)), 'materials add up');
  expect(near(of('labour'), groups[word('price.group.labour')]), 'work adds up');
  expect(near(of('net'), of('materials') + of('labour') + of('access') + of('overheads') + of('margin')), 'without VAT');
  expect(near(of('total'), of('net') + of('vat')), 'the total');
  expect(near(of('vat'), Math.floor(of('net') * 20 + 0.5) / 100), 'VAT to the penny');
  // Six minutes a soaker is argued down to three: half the money.
  const line = page.locator('.lines .line', { hasText: 'Soakers' });
  const was = amountOf(await line.locator('.amount').textContent());
  await rungScreens['price-why'](page);
  await page.locator('.opened .own input').fill('3');
  await press(page, button(page, 'rule.set'));
  await page.waitForFunction((text) => !document.querySelector('.lines')?.closest('.panel').textContent.includes(text), '72 at 6 min');
  const is = amountOf(await line.locator('.amount').textContent());
  expect(Math.abs(is - was / 2) < 0.011, `${is} is half of ${was}`);
  await saved(page);
  // An offer, read in words; one that cannot be read is told.
  await rungScreens['price-offer'](page);
  const said = (await page.locator('.offer .proven li').allTextContents()).join('\n');
  expect(/153\.1 kg/.test(said) && /£3\.72 a kg, £11\.40 a metre/.test(said) && /dearer/.test(said), `the offer: ${said}`);
  await page.getByLabel(word('offer.words')).fill('a bargain');
  await page.keyboard.press('Enter');
  await page.locator('.offer .wrong-here').first().waitFor();
  await ends(opened, 'price');
};

checks['papers: one by one as they will print, A4 and A3, and all at once'] = async () => {
  const opened = await begin('phone');
  const { page } = opened;
  await rungScreens['paper-order'](page);
  const shape = () => page.locator('.pages img').first().evaluate((one) => one.naturalWidth / one.naturalHeight);
  expect(Math.abs((await shape()) - 210 / 297) < 0.01, 'upright A4');
  const pages = await page.locator('.pages img').count();
  const pdf = await downloaded(page, page.getByRole('button', { name: /^order\.pdf/ }));
  const bytes = readFileSync(pdf.path);
  expect(bytes.subarray(0, 5).toString() === '%PDF-' && pdf.name.endsWith('order.pdf'), `${pdf.name} is a PDF`);
  expect((bytes.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? []).length === pages, 'as many pages as are shown');
  const csv = await downloaded(page, page.getByRole('button', { name: /^order\.csv/ }));
  expect(/^group,item,/.test(readFileSync(csv.path, 'utf8').replace(/^\uFEFF/, '')), 'a list for a spreadsheet');
  await press(page, page.locator('.panel').getByRole('button', { name: 'A3', exact: true }));
  await page.waitForFunction(() => {
    const one = document.querySelector('.pages img');
    return one?.complete && one.naturalWidth > one.naturalHeight;
  });
  expect(Math.abs((await shape()) - 420 / 297) < 0.02, 'A3 on its side');
  // Each of them opens.
  for (const paper of ['cutting', 'fitting', 'quote', 'price', 'proof', 'care', 'survey']) {
    await toRest(page, `papers/paper/${paper}`);
    await page.getByRole('heading', { level: 2, name: word(`paper.${paper}`) }).waitFor();
    await page.getByRole('button', { name: new RegExp(`^${paper}\\.pdf`) }).waitFor();
    expect((await page.locator('.pages img').count()) > 0, `${paper} has pages`);
  }
  await toRest(page, 'papers');
  await press(page, button(page, 'papers.make'));
  await page.locator('.paper-sheet').waitFor({ timeout: 60_000 });
  await press(page, page.locator('details.all summary', { hasText: 'data file' }));
  const plan = await planOf(page);
  expect(plan.cutting.rolls.length > 0 && plan.price.sums.length > 0, 'the plan holds what is shown');
  const form = await downloaded(page, button(page, 'papers.blank_form'));
  expect(readFileSync(form.path).subarray(0, 5).toString() === '%PDF-', 'an empty form');
  await ends(opened, 'papers');
};

checks['compare: with itself as opened, as kept, and with another job'] = async () => {
  const opened = await begin('desk');
  const { page } = opened;
  await rungScreens.compare(page);
  await press(page, button(page, 'compare.keep'));
  await page.getByRole('button', { name: /^As it was kept/ }).waitFor();
  // Another pitch changes the soakers and what they cost.
  await toRest(page, 'measure/slopes%5B0%5D.pitch');
  await page.locator('.field .number').fill('47');
  await page.waitForFunction(() => [...document.querySelectorAll('.sheet text')].some((one) => one.textContent === '47°'));
  await rungScreens.compare(page);
  await press(page, button(page, 'compare.opened'));
  const count = page.locator('.lead-in');
  await count.waitFor();
  expect(/^[2-9]\d* things differ|^1\d+ things differ/.test(await count.textContent()), await count.textContent());
  expect((await page.locator('.differences').count()) > 2, 'in tables');
  await page.waitForFunction(() => document.querySelector('.sheet .lit') !== null);
  // Pressed, a piece is shown alone.
  await press(page, page.locator('.differences .plain').first());
  await page.getByText(word('compare.show_all')).waitFor();
  const lit = await page.locator('.sheet .lit').evaluateAll((all) => [...new Set(all.map((one) => one.getAttribute('data-tag').split('/')[1]))]);
  expect(lit.length === 1, `one mark is lit: ${lit}`);
  const pdf = await downloaded(page, page.getByRole('button', { name: 'compare.pdf' }));
  expect(readFileSync(pdf.path).subarray(0, 5).toString() === '%PDF-', 'the comparison on paper');
  await press(page, page.getByRole('button', { name: /^As it was kept/ }));
  await page.waitForFunction(() => /differ from the version that was kept/.test(document.querySelector('.lead-in')?.textContent ?? ''));
  await button(page, 'undo').click();
  await pictured(page);
  await page.locator('.saving.saved').waitFor();
  await press(page, page.getByRole('button', { name: /^As it was kept/ }));
  await page.getByText(word('compare.same', { other: word('compare.kept') })).waitFor();
  await ends(opened, 'compare');
};

for (const size of ['phone', 'desk']) {
  checks[`water, ${size}: turned until it gives, the covering's own limit beside`] = async () => {
    const opened = await begin(size);
    const { page } = opened;
    await rungScreens.water(page);
    expect((await page.locator('.frontiers .judgement.right').count()) === 2, 'both walls stand a calm day');
    const drift = page.getByLabel(new RegExp(`^${word('water.drift')}`));
    const set = (slider, value) => slider.evaluate((one, to) => {
      one.value = String(to);
      one.dispatchEvent(new Event('input', { bubbles: true }));
    }, value);
    await set(drift, 30);
    await page.getByText(word('water.all_stand')).waitFor();
    await set(drift, 55);
    await page.getByText(word('water.some_give', { count: 2, of: 2 })).waitFor();
    expect((await page.locator('.frontiers li').first().textContent()).includes(word('water.both_give')), 'and so does the covering');
    expect((await page.locator('.sheet .gives').count()) > 0, 'what gives is marked on the drawing');
    // By the keys of the slider, back into what it stands.
    await drift.focus();
    await page.keyboard.press('Home');
    await page.getByText(word('water.all_stand')).waitFor();
    await press(page, button(page, 'water.turn_wind'));
    await page.locator('.limits svg').waitFor();
    await page.locator('.sheet[data-picture^="water/"]').waitFor();
    await page.locator('.frontiers .judgement.wrong').first().waitFor();
    await press(page, button(page, 'water.calm'));
    await page.getByText(word('water.all_stand')).waitFor();
    // A cover flashing over plain tiles, insisted on, gives sideways long before the tiles do.
    await toRest(page, 'lead/at/rear/boundary%20wall');
    await page.locator('.junction.here').waitFor();
    const cover = page.locator('.junction.here .details li').filter({ has: page.getByText(word('detail.cover-flashing'), { exact: true }) });
    await press(page, cover.getByRole('button'));
    await page.locator('.insisted').waitFor();
    await rungScreens.water(page);
    await set(drift, 30);
    await page.getByText(word('water.some_give', { count: 1, of: 2 })).waitFor();
    const weak = await page.locator('.frontiers li', { has: page.locator('.judgement.wrong') }).textContent();
    expect([word('water.lead_gives'), word('water.leaks_dry')].some((one) => weak.includes(one)), `the lead is the weak part: ${weak}`);
    expect((await page.locator('.ladder [aria-current=page] .rung.wrong').count()) === 1, 'and the rung is broken');
    await ends(opened, 'water');
  };
}

checks['leaks: the planted fault of a roof that stands is found from its leaks'] = async () => {
  const opened = await begin('phone');
  const { page } = opened;
  await toRest(page, 'water/leaks');
  // Two things are seen; only one of them lets rain through.
  await press(page, button(page, 'leaks.add_found'));
  await page.getByLabel(word('leaks.how')).selectOption('low');
  await page.getByLabel(word('leaks.piece')).selectOption('soaker');
  await page.getByLabel(word('leaks.course')).fill('20');
  await page.getByLabel(word('leaks.by.low')).fill('78');
  await press(page, button(page, 'leaks.add_found'));
  const second = page.locator('.rack li').nth(1);
  await second.getByLabel(word('leaks.piece')).selectOption('soaker');
  await second.getByLabel(word('leaks.course')).fill('12');
  await press(page, button(page, 'leaks.add_leak'));
  await page.getByLabel(word('leaks.when')).fill('January gale');
  await page.getByLabel(word('leaks.rain'), { exact: true }).selectOption('heavy');
  const first = page.locator('.suspects li').first();
  await page.getByText(word('leaks.explains', { leak: 'January gale' })).first().waitFor();
  const told = await first.textContent();
  expect(/Course 12/.test(told) && /missing/.test(told), `the likeliest: ${told}`);
  expect((await first.locator('.judgement.wrong, .judgement.doubt').count()) === 1, 'and it is judged');
  await press(page, first.locator('.plain'));
  await page.locator('.sheet .gives').first().waitFor();
  const tags = await page.locator('.sheet .gives').evaluateAll((all) => all.map((one) => one.getAttribute('data-tag')));
  expect(tags.every((tag) => tag.split('/')[2] === '11' && tag.endsWith('/house wall')), `its place is marked: ${tags}`);
  // What is wrong is told at its field.
  await second.getByLabel(word('leaks.course')).fill('x');
  await second.locator('.yard-field.is-wrong').waitFor();
  await second.getByLabel(word('leaks.course')).fill('12');
  await page.waitForFunction(() => !document.querySelector('.is-wrong'));
  await saved(page);
  await ends(opened, 'leaks');
};

checks['odds: which measure may fail, and what to measure again'] = async () => {
  const opened = await begin('desk');
  const { page } = opened;
  await rungScreens.odds(page);
  const all = await page.locator('.odds .proven li').allTextContents();
  const chances = all.map((text) => Number(/^(\d+) in 100/.exec(text)?.[1]));
  expect(chances.every((one, i) => one >= 1 && one <= 100 && (i === 0 || one <= chances[i - 1])), `the likeliest first: ${chances}`);
  await ends(opened, 'odds');
};

checks['hand over: another phone reads the code and has the job'] = async () => {
  const opened = await begin('phone');
  const { page } = opened;
  await rungScreens['hand-over'](page);
  // As a camera sees it.
  const picture = await page.locator('.code').screenshot();
  const read = await page.evaluate(async (bytes) => {
    const image = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext('2d');
    context.drawImage(image, 0, 0);
    return { width: image.width, height: image.height, data: [...context.getImageData(0, 0, image.width, image.height).data] };
  }, [...picture]);
  const found = jsQR(new Uint8ClampedArray(read.data), read.width, read.height);
  expect(found?.data.startsWith(`${server.url}#/take/`), `the code says ${found?.data.slice(0, 40)}`);
  const other = await open(browser, 'phone');
  await other.page.goto(found?.data ?? server.url);
  await pictured(other.page);
  expect(/#\/job\/[0-9a-f]{16}\/measure/.test(other.page.url()), 'it is kept as a job of its own');
  expect((await other.page.locator('h1').textContent()).startsWith('Hollin Barn'), 'by its name');
  await other.page.goto(`${server.url}#/take/nonsense`);
  await other.page.getByText(word('hand.wrong')).waitFor();
  await other.context.close();
  await ends(opened, 'hand over');
};

checks['offline: rungs that were never stepped on are there'] = async () => {
  const own = await serve();
  const { page, context } = await open(browser, 'phone');
  await openDemo(page, own.url);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller) {
      await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
    }
  });
  await own.stop();
  await page.reload();
  await pictured(page);
  await rungScreens.cut(page);
  await rungScreens.price(page);
  await rungScreens.water(page);
  await context.close();
};

await run(checks);
