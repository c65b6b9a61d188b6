import { runFan, type FanAir } from '../air/fan.ts';
import { formatPercent } from '../quantities/format.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import type { Model } from './model.ts';
import type { Comparison, FanPoint } from './types.ts';

/** Steps by the cube or square law until the open rotor's power or thrust is met: three leave less than 0.1 %. */
const STEPS = 3;

/** The open rotor of the model at the speed where `value` of it is `wanted`; null where it never is. `known`: its run at `start`. */
function openAt(
  model: Model,
  start: number,
  wanted: number,
  value: (run: FanAir) => number,
  power: number,
  known?: FanAir,
): { omega: number; run: FanAir } | null {
  let omega = start;
  const runOpen = () => runFan(model.rotor, null, model.air, { omega, axialSpeed: 0 });
  let run = known ?? runOpen();
  for (let i = 0; i < STEPS; i++) {
    const ratio = wanted / value(run);
    if (!(ratio > 0 && Number.isFinite(ratio))) return null;
    if (Math.abs(ratio - 1) < 1e-4) break;
    omega *= ratio ** (1 / power);
    run = runOpen();
  }
  return { omega, run };
}

/** The same rotor and disc, open against ducted, at the hover point: thrust at equal power, power at equal thrust, and why. */
export function compareOpen(
  model: Model,
  hover: FanPoint,
  omega: number,
): {
  readonly openAtEqualPower: { readonly thrust_N: number; readonly rpm: number };
  readonly compare: Comparison;
} | null {
  if (!model.passage) return null;
  const equalPower = openAt(model, omega, hover.shaftPower_W, (run) => run.shaftPower, 3);
  if (!equalPower) return null;
  const equalThrust = openAt(model, equalPower.omega, hover.thrust_N, (run) => run.thrust, 2, equalPower.run);
  const open = equalPower.run.thrust;
  const ratio = hover.thrust_N / open;
  const idealThrustRatio = Math.cbrt(2 * model.passage.exitRatio);
  const saved = equalThrust ? 1 - hover.shaftPower_W / equalThrust.run.shaftPower : null;
  return {
    openAtEqualPower: { thrust_N: open, rpm: rpmFromAngularSpeed(equalPower.omega) },
    compare: {
      thrustAtEqualPower: { ducted_N: hover.thrust_N, open_N: open, ratio },
      powerAtEqualThrust: equalThrust && {
        ducted_W: hover.shaftPower_W,
        open_W: equalThrust.run.shaftPower,
        ratio: hover.shaftPower_W / equalThrust.run.shaftPower,
        openRpm: rpmFromAngularSpeed(equalThrust.omega),
      },
      idealThrustRatio,
      words: why(ratio, idealThrustRatio, saved),
    },
  };
}

function why(ratio: number, ideal: number, saved: number | null): string {
  const change = `${formatPercent(Math.abs(ratio - 1))} ${ratio >= 1 ? 'more' : 'less'} thrust from the same shaft power`;
  const power =
    saved === null
      ? ''
      : `, or ${formatPercent(Math.abs(saved))} ${saved >= 0 ? 'less' : 'more'} power for the same thrust`;
  const bound = formatPercent(ideal - 1);
  const because =
    Math.abs(ratio / ideal - 1) < 0.01
      ? 'That is what momentum alone would give: what lip, gap and wall lose, the wall wins back at the tips.'
      : ratio > ideal
        ? `More than the ${bound} that momentum alone would give: the wall also takes the tip losses away from this blade.`
        : ratio >= 1
          ? `Momentum alone would give ${bound}, because the duct keeps the jet from narrowing; lip, gap and wall take the difference.`
          : `Momentum alone would give ${bound} more, but the losses of lip, gap, wall and struts eat it all: this duct does not pay.`;
  return `With its duct this rotor gives ${change}${power}. ${because} The duct's mass is not counted here.`;
}
