import scoutText from '../../../examples/greenhouse-scout/greenhouse-scout.fanwright.json?raw';
import { projectSchema, type Project } from '../../project/schema.ts';

/** The invented demo: a quad that carries a small camera between greenhouse rows. */
export function demoProject(): Project {
  return projectSchema.parse(JSON.parse(scoutText));
}
