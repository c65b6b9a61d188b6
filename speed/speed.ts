/**
 * `npm run speed`: how long the core takes on this machine. A benchmark, not a test: it judges nothing but that the C
 * yardstick gives the same answers. `npm run speed -- --record` also adds a row to speed/results.csv.
 *
 * What is measured is the core as the page has it, bundled: the loader that runs TypeScript directly keeps every function's
 * name, at the price of half as much time again.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
// Inside the project, so that the bundle still finds its packages.
const cache = join(root, '.cache');
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'speed-'));
try {
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    build: { ssr: 'speed/measure.ts', outDir: folder, emptyOutDir: true, target: 'node20', minify: false },
  });
  const run = spawnSync(
    process.execPath,
    [join(folder, 'measure.js'), root, folder, ...process.argv.slice(2)],
    {
      stdio: 'inherit',
    },
  );
  process.exitCode = run.status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
