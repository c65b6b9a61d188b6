/** Finds a Chromium-like browser on this machine for the real-browser tests; undefined where there is none. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome'];
const PLACES = [
  '/usr/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

const runs = (path) => {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

export const HOW_TO_GET_CHROMIUM =
  'No Chromium was found for the browser tests. Install it (Debian, Ubuntu: apt-get install chromium), or set CHROMIUM to the path of one.';

export function findChromium(env = process.env) {
  if (env.CHROMIUM) return runs(env.CHROMIUM) ? env.CHROMIUM : undefined;
  const folders = (env.PATH ?? '').split(delimiter).filter(Boolean);
  return [...PLACES, ...folders.flatMap((folder) => NAMES.map((name) => join(folder, name)))].find(runs);
}
