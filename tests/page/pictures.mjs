// node tests/page/pictures.mjs LAPWRIGHT FOLDER [SCREEN...]: a picture of every screen, at both sizes, light and dark, to be looked at by eye.
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { launch, openWindow, sizes } from './chromium.mjs';
import { host } from './hosts.mjs';
import { screens } from './screens.mjs';
import { openDemo } from './walk.mjs';

const folder = process.argv[3];
const only = process.argv.slice(4);
mkdirSync(folder, { recursive: true });
const here = await host();
const browser = await launch();
for (const size of Object.keys(sizes)) {
  for (const colorScheme of ['light', 'dark']) {
    for (const [name, reach] of Object.entries(screens)) {
      if (only.length > 0 && !only.includes(name)) continue;
      const page = await openWindow(browser, size, { colorScheme, deviceScaleFactor: 1 });
      await openDemo(page, here.url);
      try {
        await reach(page);
        await page.waitForTimeout(250);
      } catch (error) {
        console.log(`${name} ${size} ${colorScheme}: ${String(error).split('\n')[0]}`);
      }
      await page.screenshot({ path: path.join(folder, `${name}-${size}-${colorScheme}.png`) });
      await page.context().close();
    }
  }
}
await browser.close();
await here.kill();
