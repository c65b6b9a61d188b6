/** Installs what package-lock.json asks for, once; says nothing when it is all there. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

export function ensureInstalled() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Fanwright needs Node 20.19 or newer; this is ${process.version}.`);
    process.exit(1);
  }
  const root = new URL('..', import.meta.url);
  const stamp = new URL('node_modules/.fanwright-installed', root);
  const lock = createHash('sha256')
    .update(readFileSync(new URL('package-lock.json', root)))
    .digest('hex');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
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
  writeFileSync(stamp, lock);
}
