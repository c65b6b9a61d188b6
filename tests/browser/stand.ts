import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { findChromium, HOW_TO_GET_CHROMIUM } from '../../scripts/chromium.mjs';
import { buildPage, pageFolder } from '../../scripts/page.mjs';
import { serve } from '../../scripts/server.mjs';

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const DESK = { width: 1440, height: 900 };
export const PHONE = { width: 390, height: 844 };

/** A page under test and what went wrong on it: errors on its console, and requests that left this machine. */
export interface Opened {
  readonly page: Page;
  readonly problems: string[];
}

export interface OpenOptions extends BrowserContextOptions {
  /** Runs in the page before its own scripts. */
  readonly before?: () => void;
  /** Requests that find nobody. */
  readonly holdBack?: string;
  /** Errors on the console that the test brings about on purpose. */
  readonly allow?: RegExp;
}

/** The built page, served on this machine, and a browser to open it in. */
export interface Stand {
  readonly address: string;
  open(options?: OpenOptions): Promise<Opened>;
  close(): Promise<void>;
}

/** Builds the page where it is missing or stale, serves it and starts the browser, with `more` arguments. */
export async function standUp(more: readonly string[] = []): Promise<Stand> {
  const executablePath = findChromium();
  if (!executablePath) throw new Error(HOW_TO_GET_CHROMIUM);
  await buildPage();
  const server = await serve(pageFolder, 0);
  const browser: Browser = await chromium.launch({ executablePath, args: [...ARGUMENTS, ...more] });
  return {
    address: server.address,
    async open({ before, allow, holdBack, ...options }: OpenOptions = {}) {
      const context = await browser.newContext({ viewport: DESK, acceptDownloads: true, ...options });
      if (holdBack) await context.route(holdBack, (route) => route.abort());
      if (before) await context.addInitScript(before);
      const page = await context.newPage();
      const problems: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error' && !allow?.test(message.text())) problems.push(message.text());
      });
      page.on('pageerror', (error) => problems.push(error.message));
      page.on('request', (request) => {
        const { protocol, origin } = new URL(request.url());
        if (protocol.startsWith('http') && origin !== new URL(server.address).origin)
          problems.push(`a request left this machine: ${request.url()}`);
      });
      await page.goto(server.address);
      await page.getByRole('navigation', { name: 'Stages' }).waitFor();
      return { page, problems };
    },
    async close() {
      await browser.close();
      await server.close();
    },
  };
}

/** Takes a dimension by its handle and pulls it by so many pixels. */
export async function pull(page: Page, path: string, dx: number, dy: number, steps = 12): Promise<void> {
  const box = await page.locator(`[data-handle="${path}"]`).boundingBox();
  if (!box) throw new Error(`no handle for ${path}`);
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps });
  await page.mouse.up();
}

/** The value a dimension shows on the drawing. */
export async function dimension(page: Page, path: string): Promise<number> {
  return Number(
    await page.locator(`[data-dimension="${path}"] [role=spinbutton]`).getAttribute('aria-valuenow'),
  );
}

/** Until the browser's storage has the newest change. */
export async function kept(page: Page): Promise<void> {
  await page.locator('[data-saved="saved"]').waitFor();
}

export const verdict = (page: Page): Promise<string> => page.locator('.verdict').innerText();

export async function toStage(
  page: Page,
  name: 'Brief' | 'Make-up' | 'Craft' | 'Fan' | 'Sound' | 'Print' | 'Balance' | 'Bench' | 'Builds' | 'Bench',
): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Stages' })
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click();
}

/** The bytes of the next download that `act` brings about, and its name. */
export async function downloadBy(page: Page, act: () => Promise<void>) {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  const parts: Buffer[] = [];
  for await (const part of await download.createReadStream()) parts.push(part as Buffer);
  return { name: download.suggestedFilename(), bytes: Buffer.concat(parts) };
}
