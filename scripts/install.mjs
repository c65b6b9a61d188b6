/** Installs what package-lock.json asks for, once; says nothing when it is all there. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const root = new URL('..', import.meta.url);

/** What a lock file lists, or nothing where it is missing or broken. */
function listed(path) {
  try {
    return JSON.parse(readFileSync(new URL(path, root), 'utf8')).packages ?? {};
  } catch {
    return {};
  }
}

/** npm leaves a list of what it put in node_modules; it is written last, so a broken-off install has none. */
function isInstalled() {
  const there = listed('node_modules/.package-lock.json');
  return Object.entries(listed('package-lock.json')).every(
    ([path, wanted]) => path === '' || wanted.optional || there[path]?.version === wanted.version,
  );
}

export function ensureInstalled() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Fanwright needs Node 20.19 or newer; this is ${process.version}.`);
    process.exit(1);
  }
  if (isInstalled()) return;
  console.error('Installing packages (once; about half a minute) ...');
  const run = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (run.status !== 0) {
    console.error(
      'Installing failed: `npm ci` said why above. A network connection is needed the first time.',
    );
    process.exit(1);
  }
}
