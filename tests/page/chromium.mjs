// The browser that the page is tested in: Debian's Chromium, driven by playwright-core, and windows of it in two sizes.
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const dist = path.join(root, 'web/dist');
const require = createRequire(path.join(root, 'web/package.json'));
export const program = '/usr/bin/chromium';

const kSkipped = 77;
if (!existsSync(program)) {
  console.log(`skipped: there is no ${program}`);
  process.exit(kSkipped);
}

// What every Chromium here is started with. Sandboxes need rights that a container has not.
export const programArguments = ['--no-sandbox', '--disable-gpu'];

export const { chromium } = require('playwright-core');
export const axeSource = require('axe-core').source;

export const launch = () => chromium.launch({ executablePath: program, args: programArguments });

// A phone held in one hand, touched; a desk with a mouse.
export const sizes = {
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
  desk: { viewport: { width: 1440, height: 900 } },
};

// What may stand on the console: a server that was killed on purpose is missed aloud.
const kExpected = /net::ERR_(CONNECTION_REFUSED|INTERNET_DISCONNECTED|FAILED)|status of 412/;

// A window's page; what goes wrong within it unasked is collected, the content policy's refusals among it.
export async function pageIn(context) {
  const page = await context.newPage();
  page.complaints = [];
  page.on('pageerror', (error) => page.complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error' && !kExpected.test(message.text())) page.complaints.push(message.text());
  });
  page.setDefaultTimeout(15_000);
  return page;
}

export async function openWindow(browser, size, options = {}) {
  const context = await browser.newContext({ ...sizes[size], ...options });
  return pageIn(context);
}
