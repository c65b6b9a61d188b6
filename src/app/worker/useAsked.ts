import { useState } from 'react';
import { latestOnly } from './latest.ts';

/** Where a question to a worker stands; while a newer one is worked on, the last answer stays. */
export interface Asked<In, Out> {
  readonly working: boolean;
  readonly failed: boolean;
  readonly answer: { readonly input: In; readonly output: Out } | null;
}

/** Puts questions to a worker: one at a time, of those that wait only the newest. */
export function useAsked<In, Out>(
  run: (input: In) => Promise<Out>,
): readonly [Asked<In, Out>, (input: In) => void] {
  const [asked, set] = useState<Asked<In, Out>>({ working: false, failed: false, answer: null });
  const [ask] = useState(() => {
    let newest: In | null = null;
    const queue = latestOnly(
      run,
      (output, input) => set({ working: input !== newest, failed: false, answer: { input, output } }),
      (error, input) => {
        console.error(error);
        if (input === newest) set((old) => ({ ...old, working: false, failed: true }));
      },
    );
    return (input: In) => {
      newest = input;
      set((old) => ({ ...old, working: true, failed: false }));
      queue(input);
    };
  });
  return [asked, ask];
}
