/**
 * Self-noise of one stretch of a section: turbulent boundary layers passing the back edge, and shedding from a blunt one.
 * Source: Brooks, Pope and Marcolini, Airfoil Self-Noise and Prediction, NASA RP-1218, 1989, sections 5.1 and 5.4 (formulas
 * from memory; fitted there to a symmetrical section, chords 25 to 305 mm, Re 4e4 to 1.5e6, Mach below 0.21).
 */
export interface Stretch {
  /** [m] */
  readonly span: number;
  readonly chord: number;
  /** [m/s] */
  readonly speed: number;
  /** [deg], its size counts */
  readonly alpha_deg: number;
  /** Thickness of the back edge [m] and the angle between its sides [deg]. */
  readonly edge: number;
  readonly edgeAngle_deg: number;
  readonly soundSpeed: number;
  readonly viscosity_m2ps: number;
}

/** Mean over all directions of 2 sin^2(th/2) sin^2(phi), the directivity of a long back edge. */
const MEAN_DIRECTIVITY = 0.5;

/** A hump of noise: its level [dB] before the shape, and lg of frequency over Strouhal peak at 1 Hz. */
interface Hump {
  readonly level: number;
  readonly at: number;
}

/** What of a stretch does not depend on frequency. */
export interface StretchScales {
  readonly mach: number;
  /** Displacement thickness, pressure and suction side [m] */
  readonly deltaPressure: number;
  readonly deltaSuction: number;
  readonly stalled: boolean;
  readonly pressure: Hump;
  readonly suction: Hump;
  readonly separated: Hump;
  /** Where the shape functions lie between their bounds. */
  readonly ratioA: number;
  readonly ratioB: number;
  /** null: a sharp edge. */
  readonly blunt:
    (Hump & { readonly wide: EdgeShape; readonly sharp: EdgeShape; readonly mix: number }) | null;
}

const log = Math.log10;

/** Sets up a stretch; boundary layers as of an untripped section (eqs. 5 to 16), so those of a rough print may be thicker. */
export function stretchScales(stretch: Stretch): StretchScales {
  const { chord, speed, soundSpeed, viscosity_m2ps } = stretch;
  const alpha = Math.min(25, Math.abs(stretch.alpha_deg));
  const mach = speed / soundSpeed;
  const reynolds = Math.max(1e3, (speed * chord) / viscosity_m2ps);
  const l = log(reynolds);
  const delta0 = chord * 10 ** (3.0187 - 1.5397 * l + 0.1059 * l * l);
  const deltaPressure = delta0 * 10 ** (-0.0432 * alpha + 0.00113 * alpha * alpha);
  const deltaSuction =
    delta0 *
    (alpha <= 7.5
      ? 10 ** (0.0679 * alpha)
      : alpha <= 12.5
        ? 0.0162 * 10 ** (0.3066 * alpha)
        : 52.42 * 10 ** (0.0258 * alpha));
  const gamma0 = 23.43 * mach + 4.651;
  const gamma = 27.094 * mach + 3.31;
  const beta = 72.65 * mach + 10.74;
  const beta0 = -34.19 * mach - 13.82;
  const k1 = reynolds < 2.47e5 ? -4.31 * l + 156.3 : reynolds < 8e5 ? -9 * l + 181.6 : 128.5;
  const arch = beta ** 2 - (beta / gamma) ** 2 * (alpha - gamma0) ** 2;
  const k2 =
    k1 +
    (alpha < gamma0 - gamma ? -1000 : alpha > gamma0 + gamma ? -12 : Math.sqrt(Math.max(0, arch)) + beta0);
  const onPressure = (speed * deltaPressure) / viscosity_m2ps;
  const deltaK1 = onPressure <= 5000 ? alpha * (1.43 * log(Math.max(1, onPressure)) - 5.29) : 0;
  const strouhal1 = 0.02 * mach ** -0.6;
  const rise = alpha < 1.33 ? 0 : alpha <= 12.5 ? 0.0054 * (alpha - 1.33) ** 2 : log(4.72);
  const strouhal2 = strouhal1 * 10 ** rise;
  const stalled = alpha > 12.5 || alpha > gamma0;
  const hump = (delta: number, factor: number, peak: number): Hump => ({
    level: 10 * log(delta * mach ** 5 * stretch.span * MEAN_DIRECTIVITY) + factor,
    at: log(delta / speed / peak),
  });
  const b0 =
    reynolds < 9.52e4 ? 0.3 : reynolds <= 8.57e5 ? -4.48e-13 * (reynolds - 8.57e5) ** 2 + 0.56 : 0.56;
  return {
    mach,
    deltaPressure,
    deltaSuction,
    stalled,
    pressure: hump(deltaPressure, k1 - 3 + deltaK1, strouhal1),
    suction: hump(deltaSuction, k1 - 3, (strouhal1 + strouhal2) / 2),
    separated: hump(deltaSuction, stalled ? Math.max(k2, k1 - 12) : k2, strouhal2),
    ratioA: ratioA(startA(stalled ? 3 * reynolds : reynolds)),
    ratioB: (-20 - leastB(b0)) / (mostB(b0) - leastB(b0)),
    blunt: bluntHump(stretch, mach, (deltaPressure + deltaSuction) / 2),
  };
}

/** Shape functions A (eqs. 35 to 40) and B (eqs. 41 to 46) at a = |lg(St / St_peak)|. */
const leastA = (a: number): number =>
  a < 0.204
    ? Math.sqrt(67.552 - 886.788 * a * a) - 8.219
    : a <= 0.244
      ? -32.665 * a + 3.981
      : -142.795 * a ** 3 + 103.656 * a * a - 57.757 * a + 6.006;

const mostA = (a: number): number =>
  a < 0.13
    ? Math.sqrt(67.552 - 886.788 * a * a) - 8.219
    : a <= 0.321
      ? -15.901 * a + 1.098
      : -4.669 * a ** 3 + 3.491 * a * a - 16.699 * a + 1.149;

const startA = (reynolds: number): number =>
  reynolds < 9.52e4 ? 0.57 : reynolds <= 8.57e5 ? -9.57e-13 * (reynolds - 8.57e5) ** 2 + 1.13 : 1.13;

/** Where the function passes -20 dB, as a share of the way between its two bounds. */
const ratioA = (a0: number): number => (-20 - leastA(a0)) / (mostA(a0) - leastA(a0));

const between = (least: number, most: number, ratio: number): number => least + ratio * (most - least);

const leastB = (b: number): number =>
  b < 0.13
    ? Math.sqrt(16.888 - 886.788 * b * b) - 4.109
    : b <= 0.145
      ? -83.607 * b + 8.138
      : -817.81 * b ** 3 + 355.21 * b * b - 135.024 * b + 10.619;

const mostB = (b: number): number =>
  b < 0.1
    ? Math.sqrt(16.888 - 886.788 * b * b) - 4.109
    : b <= 0.187
      ? -31.33 * b + 1.854
      : -80.541 * b ** 3 + 44.174 * b * b - 39.381 * b + 2.344;

/** Below this level [dB] a part is left out of a sum. */
const NOTHING_DB = -100;
const power = (level: number): number => (level > NOTHING_DB ? 10 ** (level / 10) : 0);

/**
 * Third-octave mean square pressure of the turbulent back edge at 1 m, mean over directions, over (20 uPa)^2 (eqs. 24 to 30):
 * pressure side, suction side, and what the angle of attack adds; past stall only the last (eqs. 29, 30).
 */
export function turbulentEdge(scales: StretchScales, frequency: number): number {
  const { pressure, suction, separated, ratioA: shareA, ratioB: shareB } = scales;
  const f = log(frequency);
  const a = ({ level, at }: Hump) => {
    const off = Math.abs(f + at);
    return power(level + between(leastA(off), mostA(off), shareA));
  };
  if (scales.stalled) return a(separated);
  const off = Math.abs(f + separated.at);
  return a(pressure) + a(suction) + power(separated.level + between(leastB(off), mostB(off), shareB));
}

/** Third-octave mean square pressure of the blunt back edge, as above (eqs. 70 to 82). */
export function bluntEdge({ blunt }: StretchScales, frequency: number): number {
  if (!blunt) return 0;
  const eta = log(frequency) + blunt.at;
  const sharp = edgeLevel(blunt.sharp, eta);
  return power(blunt.level + Math.min(0, sharp + blunt.mix * (edgeLevel(blunt.wide, eta) - sharp)));
}

function bluntHump(
  { edge, edgeAngle_deg: angle, speed, span }: Stretch,
  mach: number,
  delta: number,
): StretchScales['blunt'] {
  if (!(edge > 0)) return null;
  const ratio = edge / delta;
  const peak =
    ratio >= 0.2
      ? (0.212 - 0.0045 * angle) / (1 + 0.235 / ratio - 0.0132 / ratio ** 2)
      : 0.1 * ratio + 0.095 - 0.00243 * angle;
  const level = (ratio <= 5 ? 17.5 * log(ratio) + 157.5 : 169.7) - 1.114 * angle;
  return {
    level: 10 * log(edge * mach ** 5.5 * span * MEAN_DIRECTIVITY) + level,
    at: log(edge / speed / peak),
    wide: edgeShape(ratio),
    sharp: edgeShape(6.724 * ratio * ratio - 4.019 * ratio + 1.107),
    mix: 0.0714 * angle,
  };
}

/** Constants of the shape G5 of a 14 degree edge (eqs. 76 to 82). */
interface EdgeShape {
  readonly mu: number;
  readonly m: number;
  readonly eta0: number;
  readonly k: number;
}

function edgeShape(ratio: number): EdgeShape {
  const mu =
    ratio < 0.25
      ? 0.1221
      : ratio < 0.62
        ? -0.2175 * ratio + 0.1755
        : ratio < 1.15
          ? -0.0308 * ratio + 0.0596
          : 0.0242;
  const m =
    ratio <= 0.02
      ? 0
      : ratio <= 0.5
        ? 68.724 * ratio - 1.35
        : ratio <= 0.62
          ? 308.475 * ratio - 121.23
          : ratio <= 1.15
            ? 224.811 * ratio - 69.35
            : ratio < 1.2
              ? 1583.28 * ratio - 1631.59
              : 268.344;
  const eta0 = -Math.sqrt((m * m * mu ** 4) / (6.25 + m * m * mu * mu));
  return { mu, m, eta0, k: 2.5 * Math.sqrt(1 - (eta0 / mu) ** 2) - 2.5 - m * eta0 };
}

/** The shape itself at eta = lg(St / St_peak) [dB]. */
function edgeLevel({ mu, m, eta0, k }: EdgeShape, eta: number): number {
  if (eta < eta0) return m * eta + k;
  if (eta < 0) return 2.5 * Math.sqrt(Math.max(0, 1 - (eta / mu) ** 2)) - 2.5;
  if (eta < 0.03616) return Math.sqrt(Math.max(0, 1.5625 - 1194.99 * eta * eta)) - 1.25;
  return -155.543 * eta + 4.375;
}
