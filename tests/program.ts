import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from '../src/cli/run.ts';

const main = fileURLToPath(new URL('../src/cli/main.ts', import.meta.url));

/** The project file of an example by name, for instance `greenhouse-scout`. */
export const example = (name: string): string =>
  fileURLToPath(new URL(`../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url));

/** What a run of the program ended with. */
export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A folder of its own for one test file, and the program run in it. `leave` deletes it: call it after all tests. */
export function workshop(name: string) {
  const folder = mkdtempSync(join(tmpdir(), `fanwright-${name}-`));
  return {
    folder,
    at: (file: string): string => join(folder, file),
    leave: (): void => rmSync(folder, { recursive: true, force: true }),
    /** The real program in a process of its own. */
    child(...args: string[]): Ended {
      const done = spawnSync(process.execPath, ['--import', import.meta.resolve('tsx'), main, ...args], {
        cwd: folder,
        encoding: 'utf8',
      });
      return { code: done.status, out: done.stdout, err: done.stderr };
    },
  };
}

/** The program in this process: quicker. */
export async function here(...args: string[]): Promise<Ended> {
  let out = '';
  let err = '';
  const code = await run(args, { out: (t) => void (out += t), err: (t) => void (err += t) });
  return { code, out, err };
}
