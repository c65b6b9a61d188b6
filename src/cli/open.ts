import { withBuild } from '../project/builds.ts';
import { setText } from '../project/path.ts';
import { readProject, type ReadNote } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { BadInput, sentence } from './fault.ts';
import { readBytes } from './files.ts';

/** Options that several commands share. */
export interface OpenOptions {
  readonly build?: string;
  readonly set?: readonly string[];
}

/** A project from a file, in one of its builds, with values set; or BadInput with one sentence. */
export function openProject(
  file: string,
  options: OpenOptions = {},
): { project: Project; notes: readonly ReadNote[] } {
  const read = readProject(readBytes(file));
  if (!read.ok) throw new BadInput(firstOf(file, read.errors));
  let { project } = read;
  if (options.build !== undefined) {
    const built = withBuild(project, options.build);
    if (!built.ok) throw new BadInput(`${file}: ${built.error.message}`);
    project = built.project;
  }
  for (const assignment of options.set ?? []) {
    const at = assignment.indexOf('=');
    if (at < 1)
      throw new BadInput(`--set ${assignment} lacks a value; write path=value, as in fan.tipDiameter_mm=80.`);
    const result = setText(project, assignment.slice(0, at).trim(), assignment.slice(at + 1));
    if (!result.ok) throw new BadInput(`--set: ${result.error.message}`);
    project = result.project;
  }
  return { project, notes: read.notes };
}

/** The first of a file's faults as one sentence that tells how many more there are. */
export function firstOf(file: string, faults: readonly { readonly message: string }[]): string {
  const more = faults.length - 1;
  const rest = more > 0 ? ` (and ${more} more; \`fanwright check\` lists them)` : '';
  return `${file}: ${sentence(faults[0].message).slice(0, -1)}${rest}.`;
}
