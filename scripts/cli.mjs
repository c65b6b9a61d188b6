/** Runs the command line from a clone: `npm run --silent cli -- assess FILE`. Installs first if needed. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './install.mjs';

ensureInstalled();
const args = process.argv.slice(2);
const target =
  args[0] === '--run' ? args.splice(0, 2)[1] : fileURLToPath(new URL('../src/cli/main.ts', import.meta.url));
const run = spawnSync(process.execPath, ['--import', import.meta.resolve('tsx'), target, ...args], {
  stdio: 'inherit',
});
process.exit(run.status ?? 1);
