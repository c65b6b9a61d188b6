import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { TachResult } from './tach.ts';
import type { Tones } from './tones.ts';

/** A speed of up to six digits, whole. */
export const rpmWords = (rpm: number): string => n(rpm, Math.max(3, Math.ceil(Math.log10(rpm + 1))));

export const confidenceWords = (confidence: number): string =>
  confidence > 0.995 ? 'over 99\u00a0%' : formatPercent(confidence);

/** What the tachometer heard, in sentences. */
export function tachWords(result: TachResult, blades: number): string[] {
  const { rpm, steady, confidence, fans, otherwise, hum_Hz, reason } = result;
  const hum = hum_Hz === null ? [] : [`Mains hum at ${hum_Hz} Hz was taken away first.`];
  if (rpm === null || !steady)
    return [
      `No fan found. ${reason ?? ''}`.trim(),
      'Hold the microphone a hand’s width or two beside the duct, out of the jet and out of the plane of the rotor, and record two seconds or more at one throttle.',
      ...hum,
    ];
  const tone = (rpm * blades) / 60;
  return [
    `${rpmWords(rpm)} rpm, right with a chance of ${confidenceWords(confidence)}; ${blades} blades sound at ${n(tone, 4)} Hz.`,
    steady.level
      ? `Steady from ${steady.from_s.toFixed(1)} to ${steady.to_s.toFixed(1)} s; nine in ten readings within ${formatPercent(steady.scatter, 2)} of it.`
      : `The speed changes all through the recording; this is from ${steady.from_s.toFixed(1)} to ${steady.to_s.toFixed(1)} s, where it changes least.`,
    ...(otherwise
      ? [
          `The tones would also fit ${rpmWords(otherwise.rpm)} rpm (${confidenceWords(otherwise.confidence)}); a narrower range of speeds tells them apart.`,
        ]
      : []),
    ...(fans.length > 1
      ? [`${fans.length} fans told apart: ${fans.map((fan) => rpmWords(fan.rpm)).join(', ')} rpm.`]
      : []),
    ...hum,
  ];
}

/** How even the blades sound, in a sentence; null where nothing can be said. */
export function unevenWords({ uneven_dB }: Tones): string | null {
  if (uneven_dB === null) return null;
  const level = `${n(Math.abs(uneven_dB), 2)} dB ${uneven_dB < 0 ? 'below' : 'above'} the blade tones`;
  return uneven_dB > -12
    ? `Tones once a turn stand ${level}: the blades are not alike, or something rubs once a turn.`
    : `Tones once a turn stand ${level}: the blades sound alike.`;
}
