import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { placeOf } from '../project/json.ts';
import { BadInput } from './fault.ts';

/** Larger files are no project and no table; they are refused unread. */
const LARGEST_FILE = 256 * 1024 * 1024;

/**
 * A path as seen from where the person stands. `npm run cli` moves to the folder of the program first and leaves the
 * person's own in INIT_CWD; any other way of starting leaves the folder alone.
 */
export function fromHere(path: string, env: NodeJS.ProcessEnv = process.env): string {
  const viaNpm = env.npm_lifecycle_event === 'cli' && env.npm_package_name === 'fanwright';
  return resolve((viaNpm && env.INIT_CWD) || process.cwd(), path);
}

/** The bytes of a file. Throws BadInput with a sentence when there is nothing to read. */
export function readBytes(path: string): Uint8Array {
  const full = fromHere(path);
  try {
    const stat = statSync(full);
    if (stat.isDirectory()) throw new BadInput(`${path} is a folder; give the file in it.`);
    if (stat.size > LARGEST_FILE)
      throw new BadInput(`${path} is ${Math.round(stat.size / 1e6)} MB; that is too large.`);
    return readFileSync(full);
  } catch (error) {
    throw diskFault(error, path, 'read');
  }
}

/** Bytes as UTF-8 text; BadInput names the line of the first that is none. `what` is what the file should be. */
export function plainText(bytes: Uint8Array, file: string, what: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const loose = new TextDecoder('utf-8').decode(bytes);
    const { line } = placeOf(loose, Math.max(0, loose.indexOf('\ufffd')));
    throw new BadInput(`${file} is not UTF-8 text (first odd byte: line ${line}); ${what} is plain text.`);
  }
}

/** Refuses to write where a file already is, unless forced, and over any of `inputs` in any case. */
export function refuseToReplace(
  out: string,
  force: boolean | undefined,
  inputs: readonly string[] = [],
): void {
  if (out.trim() === '') throw new BadInput('The name of the file to write is empty.');
  if (!isThere(out)) return;
  if (statSync(fromHere(out)).isDirectory())
    throw new BadInput(`${out} is a folder; give the name of a file in it.`);
  const real = (path: string) => realpathSync(fromHere(path));
  if (inputs.some((input) => isThere(input) && real(input) === real(out)))
    throw new BadInput(`${out} is the file this run reads; choose another name for what it writes.`);
  if (!force)
    throw new BadInput(`${out} is already there; choose another name, or add --force to write over it.`);
}

/**
 * Writes a file whole or not at all: to a new file in the same folder, pushed to the disk, then renamed over the old
 * one, whose permissions it keeps. A link keeps pointing at its file.
 */
export function writeWhole(path: string, data: string | Uint8Array): void {
  const full = fromHere(path);
  let temporary = '';
  try {
    const target = existsSync(full) ? realpathSync(full) : full;
    const mode = existsSync(target) ? statSync(target).mode & 0o777 : 0o666;
    temporary = join(dirname(target), `.${basename(target)}.${randomBytes(6).toString('hex')}.part`);
    const handle = openSync(temporary, 'wx', mode);
    try {
      writeFileSync(handle, data);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(temporary, target);
    syncFolder(dirname(target));
  } catch (error) {
    if (temporary) rmSync(temporary, { force: true });
    throw diskFault(error, path, 'written');
  }
}

/** Pushes a rename to the disk; not every system can, and the file itself is safe by then. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    fsyncSync(handle);
    closeSync(handle);
  } catch {
    return;
  }
}

export function makeFolder(path: string): void {
  try {
    mkdirSync(fromHere(path), { recursive: true });
  } catch (error) {
    throw diskFault(error, path, 'made');
  }
}

export const isThere = (path: string): boolean => existsSync(fromHere(path));

/** Folder of the package: the one with package.json, above src/cli in a clone and above dist/cli when installed. */
function packageFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) folder = dirname(folder);
  return folder;
}

export function programVersion(): string {
  return (JSON.parse(readFileSync(join(packageFolder(), 'package.json'), 'utf8')) as { version: string })
    .version;
}

const EXAMPLE_ENDING = '.fanwright.json';

/** Names of the example projects that come with the program. */
export function exampleNames(): readonly string[] {
  return exampleFiles().map((file) => basename(file, EXAMPLE_ENDING));
}

/** The bytes of an example. */
export function readExample(name: string): Uint8Array {
  const file = exampleFiles().find((path) => basename(path, EXAMPLE_ENDING) === name);
  if (file) return readFileSync(file);
  const names = exampleNames().map((n) => `"${n}"`);
  throw new BadInput(`There is no example "${name}"; there are ${names.join(', ')}.`);
}

function exampleFiles(): string[] {
  const root = join(packageFolder(), 'examples');
  return readdirSync(root, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap((entry) => readdirSync(join(root, entry.name)).map((file) => join(root, entry.name, file)))
    .filter((file) => file.endsWith(EXAMPLE_ENDING))
    .sort(
      (a, b) => basename(a, EXAMPLE_ENDING).length - basename(b, EXAMPLE_ENDING).length || (a < b ? -1 : 1),
    );
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'you may not (permissions)',
  EPERM: 'the system does not allow it',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'it would be larger than the system allows',
  EISDIR: 'it is a folder',
  ENOTDIR: 'part of its path is a file, not a folder',
  EEXIST: 'something else has that name',
  ENAMETOOLONG: 'its name is too long',
  ELOOP: 'its links run in a circle',
  EMFILE: 'too many files are open',
};

/** Turns a disk error into a sentence; anything else is thrown on as it came. */
function diskFault(error: unknown, path: string, done: string): unknown {
  const code = (error as NodeJS.ErrnoException).code;
  if (typeof code !== 'string' || !(error instanceof Error) || error instanceof BadInput) return error;
  if (code === 'ERR_INVALID_ARG_VALUE') return new BadInput(`"${path}" cannot be a file name.`);
  if (!('errno' in error)) return error;
  return new BadInput(`${path} cannot be ${done}: ${REASONS[code] ?? code}.`);
}
