import { create } from 'zustand';
import type { Craft, Project } from '../../project/schema.ts';
import { sizedProject } from '../../study/size-try.ts';
import type { SizeDesign, SizeStudy } from '../../study/size-types.ts';
import { useOwnParts } from '../parts/ownParts.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { startSizing, type SizeRun } from '../worker/size.ts';
import { scopeOf, type Scope } from './scope.ts';

interface Sizing {
  readonly scope: Scope;
  /** How many fans the next look is for; null: as many as the project has. */
  readonly fans: number | null;
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
  fans: null,
  state: 'none',
  done: 0,
  total: 0,
  asked: null,
  study: null,
}));

let running: SizeRun | null = null;

export const setScope = (scope: Scope): void => useSizing.setState({ scope });
export const setFans = (fans: number | null): void => useSizing.setState({ fans });

export function look(): void {
  const { project } = useApp.getState();
  const { scope, fans } = useSizing.getState();
  const lists = scopeOf(project, scope, useOwnParts.getState().parts);
  const options = { ...lists, fanCount: fans ?? project.craft.fanCount };
  useSizing.setState({ state: 'working', done: 0, total: 0 });
  running = startSizing({ project, options }, (answer) => {
    if (answer.kind === 'progress') useSizing.setState({ done: answer.done, total: answer.total });
    else if (answer.kind === 'failed') useSizing.setState({ state: 'failed' });
    // The lists of the question, not their copies from the worker: the own motor is known by identity.
    else useSizing.setState({ state: 'done', asked: project, study: { ...answer.study, ...lists } });
  });
}

export const stopLooking = (): void => running?.stop();

/** The study still answers for all that a sized design does not bring itself. */
export function stillHolds(asked: Project, study: SizeStudy | null, now: Project): boolean {
  const { fanCount } = now.craft;
  return (
    asked.brief === now.brief &&
    (fanCount === asked.craft.fanCount || fanCount === study?.fanCount) &&
    sameBesideCount(asked.craft, now.craft) &&
    asked.printer === now.printer &&
    asked.material === now.material
  );
}

const sameBesideCount = (a: Craft, b: Craft): boolean =>
  a === b ||
  (Object.keys({ ...a, ...b }) as (keyof Craft)[]).every((key) => key === 'fanCount' || a[key] === b[key]);

/** Puts fan, motor, battery, controller and number of fans of a design into the project as one step. */
export function takeDesign(asked: Project, study: SizeStudy, design: SizeDesign): void {
  const { motor, battery, controller, fan, craft } = sizedProject(
    asked,
    design.choice,
    study.motors[design.motor],
    study.batteries[design.battery],
    study.fanCount,
  );
  edit({ motor, battery, controller, fan, 'craft.fanCount': craft.fanCount }, 'size');
}
