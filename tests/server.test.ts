import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fileFor, serve } from '../scripts/server.mjs';

let folder: string;
let site: string;
let server: Awaited<ReturnType<typeof serve>>;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fanwright-server-'));
  site = join(folder, 'site');
  mkdirSync(join(site, 'assets'), { recursive: true });
  mkdirSync(join(folder, 'site-next-door'));
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  writeFileSync(join(folder, 'site-next-door', 'secret.txt'), 'secret');
  writeFileSync(join(site, '.built-from'), 'stamp');
  writeFileSync(join(site, 'index.html'), '<p>page</p>');
  writeFileSync(join(site, 'assets', 'kernel-abc.wasm'), 'wasm');
  writeFileSync(join(site, 'assets', 'worker-abc.js'), 'self.x = 1');
  server = await serve(site, 0);
});

afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

/** Sends the request line as it stands: fetch would tidy the dots away before they reach the server. */
function raw(requestLine: string): Promise<string> {
  return new Promise((done, failed) => {
    const socket = connect(Number(new URL(server.address).port), '127.0.0.1');
    let text = '';
    socket
      .on('data', (bytes) => (text += bytes))
      .on('end', () => done(text))
      .on('error', failed);
    socket.write(`${requestLine}\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n`);
  });
}

test.each([
  ['', 'text/html; charset=utf-8', 'no-cache'],
  ['assets/kernel-abc.wasm', 'application/wasm', 'public, max-age=31536000, immutable'],
  ['assets/worker-abc.js', 'text/javascript; charset=utf-8', 'public, max-age=31536000, immutable'],
])('/%s is served with its type and lifetime', async (path, type, lifetime) => {
  const got = await fetch(server.address + path);
  expect(got.status).toBe(200);
  expect(got.headers.get('content-type')).toBe(type);
  expect(got.headers.get('cache-control')).toBe(lifetime);
  const again = await fetch(server.address + path, {
    headers: { 'If-None-Match': got.headers.get('etag') ?? '' },
  });
  expect(again.status).toBe(304);
});

test.each([
  '/../secret.txt',
  '/%2e%2e/secret.txt',
  '/..%2fsecret.txt',
  '/assets/..%5c..%5csecret.txt',
  '/../site-next-door/secret.txt',
  '/%2e%2e%2fsite-next-door/secret.txt',
  '//etc/passwd',
  '/.built-from',
  '/%00',
  '/%zz',
  '/none.html',
])('%s is refused', async (path) => {
  const reply = await raw(`GET ${path} HTTP/1.1`);
  expect(reply).toMatch(/^HTTP\/1.1 404/);
  expect(reply).not.toMatch(/secret|stamp/);
  expect(await fileFor(site, path)).toBeUndefined();
});

test('only GET and HEAD are answered, and HEAD sends no body', async () => {
  expect(await raw('POST / HTTP/1.1')).toMatch(/^HTTP\/1.1 405/);
  const head = await raw('HEAD / HTTP/1.1');
  expect(head).toMatch(/^HTTP\/1.1 200/);
  expect(head).not.toContain('<p>');
});

test('a link that leads out of the folder is not followed', async () => {
  symlinkSync(join(folder, 'secret.txt'), join(site, 'link.txt'));
  expect(await fileFor(site, '/link.txt')).toBeUndefined();
});

test('a taken port gives the next free one', async () => {
  const port = Number(new URL(server.address).port);
  const next = await serve(site, port);
  expect(Number(new URL(next.address).port)).toBeGreaterThan(port);
  await next.close();
});
