import { Command } from 'commander';
import { speedRangeOf } from '../bench/tach/range.ts';
import { ANY_SPEED, MOST_BLADES, tachometer, type TachResult } from '../bench/tach/tach.ts';
import { tonesOf, type Tones } from '../bench/tach/tones.ts';
import { readWav } from '../bench/tach/wav.ts';
import { tachWords, unevenWords } from '../bench/tach/words.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { BadInput } from './fault.ts';
import { readBytes } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject } from './open.ts';
import { bullet, columns } from './text.ts';

interface TachOptions {
  readonly blades?: number;
  readonly expectRpm?: string;
  readonly project?: string;
  readonly build?: string;
  readonly fans: number;
  readonly tones?: boolean;
  readonly json?: boolean;
}

/** `fanwright tach FILE.wav`: the speed of a fan from its sound. */
export function tachCommand(io: Io): Command {
  return new Command('tach')
    .description('Tell the speed of a fan from a recording of its sound (WAV).')
    .argument('<FILE.wav>', 'recording')
    .option('--blades <B>', 'blades of the fan', numberFrom('--blades', 1, MOST_BLADES, '', true))
    .option('--expect-rpm <lo:hi>', 'speeds the drive can reach, rpm, as in 4000:30000')
    .option('--project <FILE>', 'take blades and speeds from a project file')
    .option('--build <ID>', 'use one of the builds in that file')
    .option('--fans <N>', 'fans that run at once', numberFrom('--fans', 1, 12, '', true), 1)
    .option('--tones', 'also list the tones and how loud they are')
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', TACH_NOTES)
    .action((file: string, options: TachOptions) => {
      const project = options.project === undefined ? null : openProject(options.project, options).project;
      if (!project && options.build !== undefined) throw new BadInput('--build needs --project FILE.');
      const blades = options.blades ?? project?.fan.bladeCount;
      if (blades === undefined)
        throw new BadInput('Say how many blades the fan has with --blades, or give --project FILE.');
      const expect_rpm =
        options.expectRpm === undefined ? project && speedRangeOf(project) : rangeFrom(options.expectRpm);
      const wav = readWav(readBytes(file));
      if (!wav.ok) throw new BadInput(`${file}: ${wav.message}`);
      const { samples, sampleRate, clipped } = wav;
      const result = tachometer({
        samples,
        sampleRate,
        blades,
        expect_rpm: expect_rpm ?? ANY_SPEED,
        fans: options.fans,
      });
      const tones = options.tones && result.steady ? steadyTones(samples, sampleRate, result, blades) : null;
      if (options.json) return io.out(asJson({ ...result, tones, clipped_ratio: clipped }));
      const cut =
        clipped > 1e-3
          ? [`${n(clipped * 100, 2)} % of the recording is cut off at full scale; record from further away.`]
          : [];
      io.out(
        `${file}\n` +
          [...tachWords(result, blades), ...cut].map((text) => bullet(text)).join('') +
          (tones ? tonesText(tones) : ''),
      );
    });
}

function steadyTones(
  samples: Float32Array,
  rate: number,
  { rpm, steady }: TachResult,
  blades: number,
): Tones {
  const part = samples.subarray(Math.floor(steady!.from_s * rate), Math.ceil(steady!.to_s * rate) + 1);
  return tonesOf(part, rate, rpm!, blades);
}

function tonesText(tones: Tones): string {
  const uneven = unevenWords(tones);
  const loud = [...tones.multiples, ...tones.turns.filter((t) => t.overNoise_dB >= 3)];
  return (
    '\nTones in the steady part\n' +
    columns([
      ['times a turn', 'Hz', 'dB over the loudest', 'dB over the noise'],
      ...loud
        .sort((a, b) => a.order - b.order)
        .map((t) => [
          String(t.order) + (t.multiple ? ` (blades x ${t.multiple})` : ''),
          n(t.frequency_Hz, 4),
          t.overNoise_dB < 3 ? '' : n(Number(t.relative_dB.toFixed(1)), 3),
          t.overNoise_dB < 3 ? 'not heard' : n(t.overNoise_dB, 2),
        ]),
    ]) +
    (uneven ? bullet(uneven) : '')
  );
}

/** `lo:hi` in rpm. */
function rangeFrom(text: string): { low: number; high: number } {
  const parts = text.split(':').map((part) => (/^\s*\d+(\.\d*)?\s*$/.test(part) ? Number(part) : NaN));
  const [low, high] = parts;
  if (parts.length !== 2 || !(low >= 10 && high <= 500_000 && high > low))
    throw new BadInput(
      `--expect-rpm is "${text.slice(0, 40)}"; it must be two speeds from 10 to 500000 rpm, the lower first, as in 4000:30000.`,
    );
  return { low, high };
}

const TACH_NOTES = `
Nothing is written. Hold the phone a hand's width or two beside the duct, out of the jet and out
of the plane of the rotor; two seconds at one throttle are enough. The fan must be tied down, and
nobody stands in the plane of a turning rotor. Wear eye and ear protection.

The speed is the median over the longest steady part. The range of speeds (--expect-rpm, or from
the motor and battery of --project) keeps half and double from being mistaken. Mains hum and whine
of the motor are told from blades. "No fan found" is an answer too.

Keys of --json: found, rpm, confidence (chance that rpm is right), track (t_s, rpm, confidence),
steady, fans, otherwise, hum_Hz, reason, tones (with --tones), clipped_ratio.

Examples:
  fanwright tach bench.wav --blades 5
  fanwright tach bench.wav --blades 5 --expect-rpm 4000:30000 --json
  fanwright tach bench.wav --project scout.fanwright.json --fans 4 --tones`;
