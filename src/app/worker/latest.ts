/**
 * Runs one job at a time and of all that wait only the newest: a request that comes while one is under way replaces the
 * one waiting. Each job that ran is answered through `done`, in order.
 */
export function latestOnly<In, Out>(
  run: (input: In) => Promise<Out>,
  done: (output: Out, input: In) => void,
  failed: (error: unknown, input: In) => void,
): (input: In) => void {
  let busy = false;
  let waiting: { readonly input: In } | null = null;
  const next = async (input: In): Promise<void> => {
    busy = true;
    try {
      done(await run(input), input);
    } catch (error) {
      failed(error, input);
    }
    busy = false;
    const newest = waiting;
    waiting = null;
    if (newest) void next(newest.input);
  };
  return (input) => {
    if (busy) waiting = { input };
    else void next(input);
  };
}
