// A wrong value is told at its field, in words, at once, at every question that is asked; and it is gone when mended.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, launch, open, root, run, serve } from './support.mjs';
import { pictured, word } from './walk.mjs';

const server = await serve();
const browser = await launch();

await run({
  'every field says what is wrong with it': async () => {
    const { page, context, complaints } = await open(browser, 'desk');
    await page.goto(server.url);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: word('jobs.import') }).click(),
    ]);
    await chooser.setFiles(path.join(root, 'tests/jobs/good/stack-and-pipe.json'));
    await pictured(page);
    const count = Number(/(\d+)$/.exec(await page.locator('.question .about').innerText())[1]);
    let fields = 0;
    for (let i = 0; i < count; i += 1) {
      // The one asked for, not the one before it: a value put into the next field would be wrong there.
      await page.locator('.question .about', { hasText: new RegExp(`\\b${word('measure.count', { n: i + 1, of: count })}$`) }).waitFor();
      const title = await page.locator('.question h2').innerText();
      const field = page.locator('input.number');
      if ((await field.count()) > 0) {
        fields += 1;
        const before = await field.inputValue();
        for (const nonsense of ['-5', 'soon']) {
          await field.fill(nonsense);
          const told = page.locator('.wrong-here');
          await told.waitFor({ timeout: 5000 }).catch(() => undefined);
          const said = (await told.count()) > 0 ? await told.innerText() : '';
          expect(said.includes(word('level.wrong')) && said.length > 20, `"${title}" says what is wrong with "${nonsense}": "${said}"`);
          const described = (await field.getAttribute('aria-describedby')) ?? '';
          const place = await told.evaluate((node) => node.closest('[id]')?.id ?? '').catch(() => '');
          expect(described.split(' ').includes(place), `"${title}": the field names its fault to who cannot see it`);
          expect((await field.getAttribute('aria-invalid')) === 'true', `"${title}" is marked`);
          expect(await page.locator('.sheet svg').isVisible(), 'the last good drawing stays');
        }
        await field.fill(before);
        await page.locator('.wrong-here').waitFor({ state: 'detached' });
      }
      await page.getByRole('button', { name: word('measure.next'), exact: true }).click();
    }
    expect(fields > 15, `asked ${fields} of ${count}`);
    expect(complaints.length === 0, `the console is quiet: ${complaints.join(' | ')}`);
    await context.close();
  },
  'a file that is no job is told': async () => {
    const { page, context } = await open(browser, 'desk');
    await page.goto(server.url);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: word('jobs.import') }).click(),
    ]);
    await chooser.setFiles({ name: 'x.json', mimeType: 'application/json', buffer: readFileSync(path.join(root, 'tests/jobs/bad/truncated.json')) });
    await page.getByRole('alert').getByText(word('jobs.not_a_job')).waitFor();
    await context.close();
  },
});
