/** A small static server for the built page: this machine only, GET and HEAD only, nothing outside its folder. */
import { createHash } from 'node:crypto';
import { readFile, realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.md': 'text/markdown; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
};

/** The file a request path names inside `root`; undefined where it names none. */
export async function fileFor(root, requestPath) {
  let path;
  try {
    path = decodeURIComponent(requestPath.split(/[?#]/, 1)[0]);
  } catch {
    return undefined;
  }
  if (path.includes('\0') || path.split(/[/\\]/).some((part) => part.startsWith('.'))) return undefined;
  try {
    const base = await realpath(root);
    let file = join(base, path);
    if ((await stat(file)).isDirectory()) file = join(file, 'index.html');
    // Judged after links are followed, so neither dots nor a link lead out of the folder.
    file = await realpath(file);
    return file.startsWith(base + sep) && (await stat(file)).isFile() ? file : undefined;
  } catch {
    return undefined;
  }
}

async function answer(root, request, response) {
  const plain = (status, text, headers = {}) => {
    response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8', ...headers });
    response.end(request.method === 'HEAD' ? undefined : text + '\n');
  };
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return plain(405, 'Only GET and HEAD are answered here.', { Allow: 'GET, HEAD' });
  const file = await fileFor(root, request.url ?? '/');
  if (!file) return plain(404, 'There is no such file on this page.');
  const bytes = await readFile(file);
  const tag = `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 22)}"`;
  // The build puts a hash of the content into the name of everything under assets/, so it never goes stale.
  const lasting = file.startsWith(join(await realpath(root), 'assets') + sep);
  const headers = {
    'Content-Type': TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream',
    'Cache-Control': lasting ? 'public, max-age=31536000, immutable' : 'no-cache',
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    ETag: tag,
  };
  if (request.headers['if-none-match'] === tag) return response.writeHead(304, headers).end();
  response.writeHead(200, { ...headers, 'Content-Length': bytes.length });
  response.end(request.method === 'HEAD' ? undefined : bytes);
}

function listen(server, port) {
  return new Promise((done, failed) => {
    server.once('error', failed);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', failed);
      done(server.address().port);
    });
  });
}

/**
 * Serves `root` on 127.0.0.1 at `port`, or the next free one of the 50 after it (0: any free port).
 * Gives the address and `close`, which also drops open connections.
 */
export async function serve(root, port) {
  const server = createServer((request, response) => {
    answer(root, request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500, { 'Content-Type': 'text/plain; charset=utf-8' });
      response.end('The file could not be read.\n');
    });
  });
  for (let attempt = port; ; attempt++) {
    try {
      const taken = await listen(server, attempt);
      return {
        address: `http://127.0.0.1:${taken}/`,
        close: () =>
          new Promise((done) => {
            server.close(done);
            server.closeAllConnections();
          }),
      };
    } catch (error) {
      const busy = error.code === 'EADDRINUSE' || error.code === 'EACCES';
      if (!busy || port === 0 || attempt >= Math.min(port + 50, 65535)) throw error;
    }
  }
}
