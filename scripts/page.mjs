/** Builds the page into dist-page, or leaves it when nothing it is made of has changed. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = new URL('..', import.meta.url);
const stamp = new URL('dist-page/.built-from', root);

export const pageFolder = fileURLToPath(new URL('dist-page', root));

/** A fingerprint of every file the page is made of. */
function fingerprint() {
  const files = ['src', 'examples']
    .filter((folder) => existsSync(new URL(folder, root)))
    .flatMap((folder) =>
      readdirSync(new URL(folder, root), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && !/\.test\.tsx?$/.test(entry.name))
        .map((entry) => `${entry.parentPath}/${entry.name}`),
    )
    .sort();
  const hash = createHash('sha256');
  const fixed = ['package-lock.json', 'vite.config.ts', 'tsconfig.json'];
  for (const file of [...fixed.map((name) => fileURLToPath(new URL(name, root))), ...files])
    hash.update(file).update('\0').update(readFileSync(file)).update('\0');
  return hash.digest('hex');
}

/** Returns whether it had to build; `onBuild` is called before it does. Throws what the build throws. */
export async function buildPage(onBuild = () => {}) {
  const now = fingerprint();
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === now) return false;
  onBuild();
  const { build } = await import('vite');
  const at = (path) => fileURLToPath(new URL(path, root));
  await build({ root: at('src/app'), configFile: at('vite.config.ts'), logLevel: 'error' });
  writeFileSync(stamp, now);
  return true;
}
