/** `npm start`: installs, builds the page, serves it on this machine, opens a browser where there is one. */
import { spawn } from 'node:child_process';
import { parseArgs } from 'node:util';
import { ensureInstalled } from './install.mjs';
import { buildPage, pageFolder } from './page.mjs';
import { serve } from './server.mjs';

const USUAL_PORT = 4715;

function options() {
  try {
    const { values } = parseArgs({
      options: { port: { type: 'string' }, 'no-open': { type: 'boolean', default: false } },
    });
    const port = values.port === undefined ? USUAL_PORT : Number(values.port);
    if (!Number.isInteger(port) || port < 0 || port > 65535)
      throw new Error(`--port takes a whole number from 0 to 65535, not "${values.port}".`);
    return { port, open: !values['no-open'] };
  } catch (error) {
    console.error(error.message);
    console.error('Use: npm start [-- --port 4715] [--no-open]');
    process.exit(2);
  }
}

/** Opens the person's browser; where there is none, the printed address has to do. */
function openBrowser(address) {
  const { platform, env } = process;
  if (env.CI || (platform === 'linux' && !env.DISPLAY && !env.WAYLAND_DISPLAY)) return;
  const [command, ...args] =
    platform === 'darwin'
      ? ['open', address]
      : platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(command, args, { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}

const { port, open } = options();
ensureInstalled();
try {
  await buildPage(() => console.error('Building the page (a few seconds) ...'));
} catch (error) {
  const said = error.message.split('\n').filter((line) => !/^\s+at /.test(line));
  console.error(`The page could not be built: ${said.join('\n')}`);
  process.exit(1);
}
let server;
try {
  server = await serve(pageFolder, port);
} catch (error) {
  console.error(
    `No free port from ${port} on 127.0.0.1 (${error.code ?? error.message}). Try: npm start -- --port 0`,
  );
  process.exit(1);
}
console.log(`Fanwright is ready at ${server.address}  (Ctrl+C ends it)`);
if (open) openBrowser(server.address);
for (const signal of ['SIGINT', 'SIGTERM'])
  process.once(signal, () => server.close().then(() => process.exit(0)));
