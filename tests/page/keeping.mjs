// Nothing is lost: a killed tab, two windows, a hostile title, undo, files in and out.
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, launch, open, root, run, serve } from './support.mjs';

const server = await serve();
const browser = await launch();
const kPitch = '#/job/demo/measure/slopes%5B0%5D.pitch';

async function demo(size = 'desk') {
  const opened = await open(browser, size);
  await opened.page.goto(`${server.url}#/demo`);
  await opened.page.waitForSelector('.sheet svg');
  return opened;
}
const field = (page) => page.locator('input.number');
const saved = (page) => page.waitForSelector('.saving.saved');

await run({
  'a tab that is killed while saving': async () => {
    const { page, context } = await demo();
    await saved(page);
    // Typed and killed at once: no time for the save, none for a farewell.
    await field(page).fill('43.5');
    const session = await context.newCDPSession(page);
    void session.send('Page.crash').catch(() => undefined);
    await page.waitForEvent('crash');
    const fresh = await context.newPage();
    await fresh.goto(`${server.url}${kPitch}`);
    await fresh.waitForSelector('.sheet svg');
    expect((await field(fresh).inputValue()) === '43.5', 'the last key before the kill is there');
    await saved(fresh);
    await fresh.evaluate(() => localStorage.clear());
    await fresh.reload();
    await fresh.waitForSelector('.sheet svg');
    expect((await field(fresh).inputValue()) === '43.5', 'and it is saved as a job by then');
    await context.close();
  },
  'two windows': async () => {
    const { page, context } = await demo();
    const other = await context.newPage();
    await other.goto(`${server.url}${kPitch}`);
    await other.waitForSelector('.sheet svg');
    await field(page).fill('44');
    await saved(page);
    await other.waitForSelector('.saving.other');
    await field(other).fill('46');
    await other.waitForTimeout(600);
    await page.reload();
    await page.waitForSelector('.sheet svg');
    expect((await field(page).inputValue()) === '44', 'the second window did not win silently');
    // What it typed and could not save is its own as long as it lives, whatever is typed or saved here.
    expect((await page.locator('.saving.left').count()) === 0, 'a living window keeps its own draft');
    expect((await field(other).inputValue()) === '46', 'the second window still has what it typed');
    await other.getByRole('button', { name: 'Keep mine' }).click();
    await saved(other);
    await page.waitForSelector('.saving.other');
    await page.getByRole('button', { name: 'Take theirs' }).click();
    await page.waitForFunction(() => document.querySelector('input.number').value === '46');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await field(page).inputValue()) === '44', 'what stood here is one undo away');
    await saved(page);
    await context.close();
  },
  'a window that is gone with what it could not save': async () => {
    const { page, context } = await demo();
    const other = await context.newPage();
    await other.goto(`${server.url}${kPitch}`);
    await other.waitForSelector('.sheet svg');
    await field(page).fill('44');
    await saved(page);
    await other.waitForSelector('.saving.other');
    await field(other).fill('46');
    await other.waitForTimeout(300);
    await other.close();
    await page.reload();
    await page.getByRole('button', { name: 'Bring it back' }).click();
    await page.waitForFunction(() => document.querySelector('input.number').value === '46');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await field(page).inputValue()) === '44', 'undo takes it away again');
    await context.close();
  },
  'a job named like a script': async () => {
    const { page, context, complaints } = await demo();
    const title = '<script>document.title="owned"</script><img src=x onerror="document.title=\'owned\'">';
    await page.locator('.title-field input').fill(title);
    await saved(page);
    expect((await page.locator('.top h1').textContent()) === title, 'it is text');
    const folder = mkdtempSync(path.join(tmpdir(), 'lapwright-job-'));
    const job = JSON.parse(readFileSync(path.join(root, 'data/demo/hollin-barn.json'), 'utf8'));
    job.title = title;
    job.slopes[0].name = '"><svg onload=document.title="owned">';
    job.slopes[0].junctions[0].name = '</script><script>document.title="owned"</script>';
    const file = path.join(folder, 'job.json');
    writeFileSync(file, JSON.stringify(job));
    await page.getByRole('link', { name: 'All jobs' }).click();
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open a job file' }).click()]);
    await chooser.setFiles(file);
    await page.waitForSelector('.sheet svg');
    for (const rung of ['Lay out', 'Lead', 'Papers']) {
      await page.getByRole('link', { name: new RegExp(`^${rung}`) }).click();
      await page.waitForTimeout(300);
    }
    expect((await page.title()) === 'Lapwright', 'nothing of it ran');
    expect((await page.locator('.sheet script, .sheet image, .sheet [onload]').count()) === 0, 'no element of it in the drawing');
    expect(complaints.length === 0, `the console is quiet: ${complaints.join(' | ')}`);
    await context.close();
  },
  'undo and redo': async () => {
    const { page, context } = await demo();
    await field(page).fill('41');
    await page.waitForTimeout(1700);
    await field(page).fill('47');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await field(page).inputValue()) === '41', 'back to 41');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await field(page).inputValue()) === '40', 'back to 40');
    await page.getByRole('button', { name: 'Redo' }).click();
    await page.getByRole('button', { name: 'Redo' }).click();
    expect((await field(page).inputValue()) === '47', 'and forward to 47');
    await context.close();
  },
  'duplicate, throw away and take it back': async () => {
    const { page, context } = await demo();
    await page.getByRole('link', { name: 'All jobs' }).click();
    await page.getByRole('button', { name: /^Duplicate/ }).click();
    await page.waitForFunction(() => document.querySelectorAll('.job-list li').length === 2);
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /^Save as a file/ }).first().click()]);
    expect(JSON.parse(readFileSync(await download.path(), 'utf8')).format === 'lapwright-job/1', 'the file is a job');
    await page.getByRole('button', { name: /^Throw away/ }).first().click();
    await page.waitForFunction(() => document.querySelectorAll('.job-list li').length === 1);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.waitForFunction(() => document.querySelectorAll('.job-list li').length === 2);
    await context.close();
  },
  'no room left': async () => {
    const { page, context } = await demo();
    await saved(page);
    // As a full disk: every write is refused from here on.
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      globalThis.giveRoom = () => { IDBObjectStore.prototype.put = put; };
      IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); };
    });
    await field(page).fill('48');
    await page.waitForSelector('.saving.full');
    expect((await field(page).inputValue()) === '48', 'what was typed stays');
    await page.evaluate(() => globalThis.giveRoom());
    await page.waitForSelector('.saving.saved');
    await context.close();
  },
});
