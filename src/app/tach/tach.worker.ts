import { expose } from 'comlink';
import { tachometer } from '../../bench/tach/tach.ts';
import { tonesOf } from '../../bench/tach/tones.ts';
import type { TachWorker } from './ask.ts';

/** A minute of sound takes about half a second; here it does not hold up the page. */
const worker: TachWorker = {
  hear: (request) => {
    const result = tachometer(request);
    const { rpm, steady } = result;
    const { samples, sampleRate, blades } = request;
    const tones =
      rpm === null || !steady
        ? null
        : tonesOf(
            samples.subarray(Math.floor(steady.from_s * sampleRate), Math.ceil(steady.to_s * sampleRate) + 1),
            sampleRate,
            rpm,
            blades,
          );
    return Promise.resolve({ result, tones });
  },
};

expose(worker);
