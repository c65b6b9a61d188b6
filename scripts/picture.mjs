/** Takes docs/picture.png for the README: the fan stage of the demo as it stands, 1440 by 900, light. */
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { findChromium, HOW_TO_GET_CHROMIUM } from './chromium.mjs';
import { buildPage, pageFolder } from './page.mjs';
import { serve } from './server.mjs';

const executablePath = findChromium();
if (!executablePath) {
  console.error(HOW_TO_GET_CHROMIUM);
  process.exit(1);
}
await buildPage();
const server = await serve(pageFolder, 0);
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  await page.goto(server.address);
  await page.getByText('Drag to turn').waitFor();
  await page.waitForTimeout(500);
  const path = fileURLToPath(new URL('../docs/picture.png', import.meta.url));
  await page.screenshot({ path });
  console.log(`wrote ${path}`);
} finally {
  await browser.close();
  await server.close();
}
