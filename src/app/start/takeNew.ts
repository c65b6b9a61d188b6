import type { Project } from '../../project/schema.ts';
import { dismiss, goTo, replaceProject, setStarting } from '../state/actions.ts';

/** Puts a new project on the page. The one before is one undo away. */
export function takeNew(project: Project): void {
  replaceProject(project, `new project: ${project.name}`);
  dismiss();
  goTo('fan');
  setStarting(false);
}
