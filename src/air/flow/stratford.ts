import { slopeAt, type SpeedRun } from './thwaites.ts';

/** Value of x^2 C_p (dC_p/dx)^2 at laminar separation. Source: Curle and Skan 1957, who raised Stratford's 0.0076. */
const LAMINAR_LIMIT = 0.0104;

/**
 * Index of the first point after `peak` where a laminar layer separates, or null.
 * x^2 C_p (dC_p/dx)^2 = 0.0104, C_p = 1 - (q / q_peak)^2, x counted from where a flat plate at q_peak would have begun to
 * have the same layer at the peak: integral (q / q_peak)^5 (r / r_peak)^2 ds before it.
 * Sources: Stratford, Flow in the laminar boundary layer near separation, ARC R&M 3002, 1957; Curle and Skan, Aero. Quarterly 8 (1957)
 * 257-268 for the constant.
 */
export function stratfordLaminar(run: SpeedRun, peak: number): number | null {
  const { s, speed, r } = run;
  let lead = 0;
  for (let i = 1; i <= peak; i++) {
    const share = (speed[i - 1] + speed[i]) / 2 / speed[peak];
    lead += (s[i] - s[i - 1]) * share ** 5 * ((r[i - 1] + r[i]) / 2 / r[peak]) ** 2;
  }
  const cp = Array.from({ length: s.length }, (_, i) => 1 - (speed[i] / speed[peak]) ** 2);
  for (let i = peak + 1; i < s.length; i++) {
    const slope = slopeAt(s, cp, i);
    if (slope <= 0 || cp[i] <= 0) continue;
    const x = lead + s[i] - s[peak];
    if (x * x * cp[i] * slope * slope >= LAMINAR_LIMIT) return i;
  }
  return null;
}

/**
 * Index of the first point from `from` on where a turbulent layer that starts there with momentum thickness `theta` [m]
 * separates, or null: C_p (x dC_p/dx)^0.5 = 0.35 (1e-6 Re)^0.1 where the pressure's rise eases (0.39 where it steepens), for
 * C_p up to 4/7; C_p beyond it counts as separated only where the criterion already fails with C_p held at 4/7.
 * x counted from where a turbulent plate layer would reach theta: theta = 0.036 x (q x / nu)^-0.2.
 * Source: Stratford, The prediction of separation of the turbulent boundary layer, J. Fluid Mech. 5 (1959) 1-16.
 */
export function stratfordTurbulent(
  run: SpeedRun,
  from: number,
  theta: number,
  viscosity: number,
): number | null {
  const { s, speed } = run;
  const q0 = speed[from];
  const lead = (theta / 0.036) ** 1.25 * (q0 / viscosity) ** 0.25;
  const cp = Array.from({ length: s.length }, (_, i) => 1 - (speed[i] / q0) ** 2);
  let before = Infinity;
  for (let i = from + 1; i < s.length; i++) {
    const slope = slopeAt(s, cp, i);
    const easing = slope <= before;
    before = slope;
    if (slope <= 0 || cp[i] <= 0) continue;
    const x = lead + s[i] - s[from];
    const limit = (easing ? 0.35 : 0.39) * ((1e-6 * q0 * x) / viscosity) ** 0.1;
    if (Math.min(cp[i], 4 / 7) * Math.sqrt(x * slope) >= limit) return i;
  }
  return null;
}
