import { formatNumber, formatPercent } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { shareText } from './hover-share.ts';
import type { ComparedPoint } from './compare-types.ts';

/** The comparison at one point in sentences: how much is missing, and on which side. */
export function comparedWords(point: ComparedPoint | null): string[] {
  if (!point) return ['There is no reading with the fans running to compare.'];
  const { total, air, drive, pack, motor, torque } = point.ratios;
  const where =
    point.throttle === null
      ? point.rpm === null
        ? 'At the strongest reading'
        : `At ${formatNumber(point.rpm)} rpm`
      : `At ${formatPercent(point.throttle)} throttle`;
  const words: string[] = [];
  if (point.measured_N.value < 0)
    return [
      `${where} the fan pushes ${formatNumber(-point.measured_N.value)} N the wrong way. Look which way it turns and which way up it sits before anything else.`,
    ];
  if (total)
    words.push(
      `${where} the fan gives ${formatNumber(point.measured_N.value)} N, ${shareText(total)} of what was predicted (${formatNumber(point.predictedAtThrottle_N!.value)} N).${within(total)}`,
    );
  if (air)
    words.push(
      `Air side: at equal speed (${formatNumber(point.rpm!)} rpm) it gives ${shareText(air)} of the predicted thrust${torque ? ` and takes ${shareText(torque)} of the predicted torque` : ''}.${within(air)}`,
    );
  if (drive)
    words.push(
      `Drive side: it turns at ${formatNumber(point.rpm!)} rpm where ${formatNumber(point.predictedRpm!.value)} was predicted, which is worth ${shareText(drive)} of the thrust.${within(drive)}`,
    );
  if (pack && motor)
    words.push(
      `Of that the voltage under load is worth ${shareText(pack)}; motor and controller at that voltage ${shareText(motor)}.`,
    );
  if (!total && !air)
    words.push(
      `${where} the fan gives ${formatNumber(point.measured_N.value)} N; without throttle or speed beside it there is no prediction to hold it against.`,
    );
  const split = verdictOn(air, drive);
  if (split) words.push(split);
  else if (total && !air)
    words.push(
      'Without the speed, blades and drive cannot be told apart; a recording of the sound gives it.',
    );
  return words;
}

/** Says so where the prediction's own doubt and that of the readings cover the difference. */
const within = ({ low, high }: Interval): string =>
  low <= 1 && high >= 1 ? ' That is within what prediction and readings leave open.' : '';

/** Which side the shortfall lies on, by the logarithms of the two shares: they multiply. */
function verdictOn(air: Interval | null, drive: Interval | null): string | null {
  if (!air || !drive || !(air.value > 0) || !(drive.value > 0)) return null;
  const missing = -Math.log(air.value) - Math.log(drive.value);
  if (missing < 0.03)
    return missing < -0.03
      ? 'Together it does better than predicted.'
      : 'Together it does what was predicted, within 3 %.';
  const share = -Math.log(air.value) / missing;
  if (share > 0.8) return 'The shortfall lies on the air side: blades, gap, duct, or the rig.';
  if (share < 0.2)
    return 'The shortfall lies on the drive side: pack, motor, controller, or more torque than expected.';
  return `The shortfall lies on both sides: about ${formatPercent(share)} of it in the air, the rest in the drive.`;
}
