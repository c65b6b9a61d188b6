import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

test(
  'npm start builds, serves the page, says where in one line, and ends cleanly',
  { timeout: 180_000 },
  async () => {
    const child = spawn(process.execPath, ['scripts/start.mjs', '--port', '0', '--no-open'], { cwd: root });
    const ended = once(child, 'exit');
    let said = '';
    await new Promise<void>((done, failed) => {
      child.stdout.on('data', (bytes) => {
        said += bytes;
        if (said.includes('\n')) done();
      });
      child.on('exit', (code) => failed(new Error(`ended early with ${code}: ${said}`)));
    });
    const address = /^Fanwright is ready at (http:\/\/127\.0\.0\.1:\d+\/) /.exec(said)?.[1];
    expect(said.trim().split('\n')).toHaveLength(1);
    expect(address).toBeDefined();
    const page = await fetch(address!);
    expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
    const html = await page.text();
    expect(html).toContain('Fanwright');
    const scripts = [...html.matchAll(/(?:src|href)="\.\/(assets\/[^"]+)"/g)].map((match) => match[1]);
    expect(scripts.length).toBeGreaterThan(0);
    for (const path of scripts) expect((await fetch(address! + path)).status, path).toBe(200);
    child.kill('SIGINT');
    expect((await ended)[0]).toBe(0);
  },
);

test('npm start refuses a port that is none with one sentence', async () => {
  const child = spawn(process.execPath, ['scripts/start.mjs', '--port', 'blue'], { cwd: root });
  let said = '';
  child.stderr.on('data', (bytes) => (said += bytes));
  expect((await once(child, 'exit'))[0]).toBe(2);
  expect(said).toContain('--port takes a whole number from 0 to 65535, not "blue".');
});
