import { assess } from '../../assess/assess.ts';
import type { Assessment } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';

/** The assessment of a project, or null with the reason kept for the console where our own code failed. */
export function tryAssess(project: Project): Assessment | null {
  try {
    return assess(project);
  } catch (error) {
    console.error('assess failed', error);
    return null;
  }
}
