/**
 * `npm test`: every check of the project, one stage after the other, each run even where an earlier one failed.
 * The last line is exactly "N passed, N failed" and counts every test; a stage without tests of its own counts as one.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { findChromium, HOW_TO_GET_CHROMIUM } from './chromium.mjs';
import { ensureInstalled } from './install.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const results = fileURLToPath(new URL('../.cache/tests', import.meta.url));
const chromium = findChromium();

/** Runs a program of the project with Node itself, so that it works alike on every system. */
function run(script, args) {
  const env = { ...process.env };
  if (!process.stdout.isTTY && !env.FORCE_COLOR) env.NO_COLOR = '1';
  if (chromium) env.CHROMIUM = chromium;
  return spawnSync(process.execPath, [script, ...args], { cwd: root, stdio: 'inherit', env }).status === 0;
}

const tool = (path, ...args) => run(fileURLToPath(new URL(`../node_modules/${path}`, import.meta.url)), args);

/** A stage that passes or fails as a whole. */
const single = (ok) => ({ passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0 });

/** A stage of many tests; a file that could not be run, or an error outside any test, counts as one failed test. */
function vitest(name, ...args) {
  const report = `${results}/${name}.json`;
  rmSync(report, { force: true });
  const ok = tool(
    'vitest/vitest.mjs',
    'run',
    ...args,
    '--reporter=dot',
    '--reporter=json',
    `--outputFile.json=${report}`,
  );
  try {
    const found = JSON.parse(readFileSync(report, 'utf8'));
    const broken = found.testResults.filter((f) => f.status === 'failed' && f.assertionResults.length === 0);
    const failed = found.numFailedTests + broken.length;
    return {
      passed: found.numPassedTests,
      failed: ok || failed > 0 ? failed : 1,
      skipped: found.numPendingTests + found.numTodoTests,
    };
  } catch {
    return single(false);
  }
}

function browser() {
  if (chromium) return vitest('browser', '--config', 'vitest.browser.config.ts');
  console.error(HOW_TO_GET_CHROMIUM);
  return single(false);
}

const stages = [
  ['types', () => single(tool('typescript/bin/tsc', '-p', 'tsconfig.json', '--noEmit'))],
  ['lint', () => single(tool('eslint/bin/eslint.js', '.'))],
  ['format', () => single(tool('prettier/bin/prettier.cjs', '--check', '.'))],
  ['boundaries', () => single(run('scripts/boundaries.mjs', []))],
  ['unused', () => single(tool('knip/bin/knip.js'))],
  [
    'build',
    () => single(tool('typescript/bin/tsc', '-p', 'tsconfig.build.json') && run('scripts/build.mjs', [])),
  ],
  ['unit tests', () => vitest('unit', '--project', 'unit')],
  ['project tests', () => vitest('project', '--project', 'project')],
  ['published checks', () => vitest('checks', '--project', 'checks')],
  ['browser tests', browser],
];

ensureInstalled();
mkdirSync(results, { recursive: true });
const rows = stages.map(([name, stage]) => {
  console.log(`\n== ${name}`);
  const began = performance.now();
  return { name, ...stage(), seconds: (performance.now() - began) / 1000 };
});

console.log('\n' + ['stage'.padEnd(18), 'passed', 'failed', 'skipped', ' seconds'].join('  '));
for (const { name, passed, failed, skipped, seconds } of rows)
  console.log(
    [
      name.padEnd(18),
      String(passed).padStart(6),
      String(failed).padStart(6),
      String(skipped).padStart(7),
      seconds.toFixed(1).padStart(8),
    ].join('  '),
  );
const sum = (key) => rows.reduce((total, row) => total + row[key], 0);
console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
process.exitCode = sum('failed') > 0 ? 1 : 0;
