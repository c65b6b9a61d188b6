import heavyText from '../../../examples/greenhouse-scout/greenhouse-scout-heavy.fanwright.json?raw';
import scoutText from '../../../examples/greenhouse-scout/greenhouse-scout.fanwright.json?raw';
import { readProject } from '../../project/read.ts';
import type { Project } from '../../project/schema.ts';

function bundled(text: string): Project {
  const read = readProject(text);
  if (!read.ok) throw new Error(`a bundled example does not read: ${read.errors[0].message}`);
  return read.project;
}

/** The invented demo: a quad that carries a small camera between greenhouse rows. */
export const demoProject = (): Project => bundled(scoutText);

/** Its sister that does not lift. */
export const heavyProject = (): Project => bundled(heavyText);
