// node tests/page/pictures.mjs FOLDER [SCREEN...]: a picture of every screen, at both sizes, light and dark, to be looked at by eye.
// SIZES=phone SCHEMES=light narrows it.
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { screens } from './screens.mjs';
import { launch, open, serve } from './support.mjs';
import { openDemo } from './walk.mjs';

const folder = process.argv[2];
const only = process.argv.slice(3);
mkdirSync(folder, { recursive: true });
const here = await serve();
const browser = await launch();
for (const size of (process.env.SIZES ?? 'phone desk').split(' ')) {
  for (const colorScheme of (process.env.SCHEMES ?? 'light dark').split(' ')) {
    for (const [name, reach] of Object.entries(screens)) {
      if (only.length > 0 && !only.includes(name)) continue;
      const { page } = await open(browser, size, { colorScheme, isMobile: size === 'phone', reducedMotion: 'reduce' });
      page.setDefaultTimeout(8000);
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
await here.stop();
