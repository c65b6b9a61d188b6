import { useCallback } from 'react';
import { setStarting } from '../state/actions.ts';
import { demoProject, heavyProject } from '../state/examples.ts';
import { SixQuestions } from './SixQuestions.tsx';
import { takeNew } from './takeNew.ts';

/** How a project begins: one of the demos, or six questions. */
export function StartDialog() {
  const open = useCallback((dialog: HTMLDialogElement | null) => {
    if (dialog && !dialog.open) dialog.showModal();
  }, []);
  return (
    <dialog className="start" ref={open} aria-labelledby="start-title" onClose={() => setStarting(false)}>
      <header>
        <h2 id="start-title">A new project</h2>
        <button onClick={() => setStarting(false)}>Close</button>
      </header>
      <p>
        The project now on the page stays one undo away; save it to a file if you want to keep it for good.
      </p>
      <div className="starts">
        <div>
          <h3>Six questions</h3>
          <SixQuestions />
        </div>
        <div className="demos">
          <h3>Or an example</h3>
          <p>Invented: a quad that carries a small camera between greenhouse rows.</p>
          <button onClick={() => takeNew(demoProject())}>The demo that lifts</button>
          <p>Its sister with too much aboard, to see what the page says then.</p>
          <button onClick={() => takeNew(heavyProject())}>The demo that does not lift</button>
        </div>
      </div>
    </dialog>
  );
}
