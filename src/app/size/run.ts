import { create } from 'zustand';
import type { Project } from '../../project/schema.ts';
import { sizedProject } from '../../study/size-try.ts';
import type { SizeDesign, SizeStudy } from '../../study/size-types.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { startSizing, type SizeRun } from '../worker/size.ts';
import { scopeOf, type Scope } from './scope.ts';

interface Sizing {
  readonly scope: Scope;
  readonly state: 'none' | 'working' | 'failed' | 'done';
  readonly done: number;
  readonly total: number;
  /** What the shown study was asked about. */
  readonly asked: Project | null;
  readonly study: SizeStudy | null;
}

/** Outside the card, so that a look at another stage does not lose the map. */
export const useSizing = create<Sizing>()(() => ({
  scope: 'near',
  state: 'none',
  done: 0,
  total: 0,
  asked: null,
  study: null,
}));

let running: SizeRun | null = null;

export const setScope = (scope: Scope): void => useSizing.setState({ scope });

export function look(): void {
  const { project } = useApp.getState();
  const options = scopeOf(project, useSizing.getState().scope);
  useSizing.setState({ state: 'working', done: 0, total: 0 });
  running = startSizing({ project, options }, (answer) => {
    if (answer.kind === 'progress') useSizing.setState({ done: answer.done, total: answer.total });
    else if (answer.kind === 'failed') useSizing.setState({ state: 'failed' });
    // The lists of the question, not their copies from the worker: the own motor is known by identity.
    else useSizing.setState({ state: 'done', asked: project, study: { ...answer.study, ...options } });
  });
}

export const stopLooking = (): void => running?.stop();

/** The study still answers for all that a sized design does not bring itself. */
export const stillHolds = (asked: Project, now: Project): boolean =>
  asked.brief === now.brief &&
  asked.craft === now.craft &&
  asked.printer === now.printer &&
  asked.material === now.material;

/** Puts fan, motor, battery and controller of a design into the project as one step. */
export function takeDesign(asked: Project, study: SizeStudy, design: SizeDesign): void {
  const { motor, battery, controller, fan } = sizedProject(
    asked,
    design.choice,
    study.motors[design.motor],
    study.batteries[design.battery],
  );
  edit({ motor, battery, controller, fan }, 'size');
}
