import { create } from 'zustand';
import type { Assessment } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';
import { tryAssess } from './assessor.ts';
import { demoProject } from './examples.ts';
import { startHistory, type History } from './history.ts';

export const stages = [
  'brief',
  'makeup',
  'craft',
  'fan',
  'sound',
  'print',
  'balance',
  'bench',
  'builds',
] as const;
export type Stage = (typeof stages)[number];
export type Theme = 'system' | 'light' | 'dark';

/** Where the work stands in the browser's storage. */
export type Saved =
  | { readonly state: 'nothing yet' }
  | { readonly state: 'saving' }
  | { readonly state: 'saved'; readonly at: Date }
  | { readonly state: 'failed'; readonly why: string };

/** A sentence for the person, with the lines it is about. */
export interface Notice {
  readonly text: string;
  readonly lines: readonly string[];
}

export interface AppState {
  readonly history: History<Project>;
  readonly project: Project;
  readonly assessment: Assessment | null;
  readonly stage: Stage;
  readonly theme: Theme;
  readonly saved: Saved;
  readonly notice: Notice | null;
  readonly starting: boolean;
  /** The path under the pointer while a dimension is dragged. */
  readonly dragging: string | null;
}

const first = demoProject();

/** What the page knows. Changed only through `actions.ts`. */
export const useApp = create<AppState>()(() => ({
  history: startHistory(first),
  project: first,
  assessment: tryAssess(first),
  stage: 'fan',
  theme: 'system',
  saved: { state: 'nothing yet' },
  notice: null,
  starting: false,
  dragging: null,
}));
