/**
 * Fits the constants of the section form (src/air/section-constants.ts) to measured sections and rotors, then again with
 * one rotor geometry left out at a time, and writes checks/data/section-fits.json for the checks. Takes minutes:
 * `node scripts/cli.mjs --run scripts/fit-section.ts`. Least squares with priors that hold each constant where a tunnel would
 * find it (Levenberg-Marquardt, differences for the slopes).
 */
import { writeFileSync } from 'node:fs';
import { FITTED, type SectionConstants } from '../src/air/section-constants.ts';
import {
  ADVANCE_ROTOR,
  bladeOf,
  computedPoint,
  measuredPoints,
  STATIC_ROTORS,
  type SectionFit,
} from '../checks/rotor-data.ts';
import { sectionPoints, SECTIONS } from '../checks/section-data.ts';

/** What is looked for: the constants, and the camber of the rotors' two sections, unknown here. */
type Unknowns = Omit<SectionConstants, 'laminarSpread'> & { camberFirst: number; camberSecond: number };

/** Where each is expected before any data, and how far off it may be (one standard deviation). */
const PRIOR: Record<keyof Unknowns, readonly [mean: number, spread: number]> = {
  laminarMiddle: [25_000, 8_000],
  noseStall: [0.13, 0.02],
  noseStallCamber: [1.1, 0.3],
  noseStallReynolds: [0.014, 0.008],
  rotationDelay: [0.27, 0.12],
  liftStall: [0.21, 0.02],
  liftStallCamber: [0.9, 0.3],
  softZero: [0.1, 0.05],
  softSlope: [0.3, 0.12],
  suctionThickness: [0.0385, 0.006],
  friction: [1.05, 0.08],
  bubble: [0.025, 0.01],
  lowAspect: [0.8, 0.4],
  slope: [0.93, 0.02],
  lowerOnset: [0.055, 0.02],
  lowerCamber: [2, 0.6],
  lowerThickness: [1.7, 0.5],
  lowerReynolds: [0.04, 0.015],
  lowerDrag: [30, 25],
  lowerLift: [30, 15],
  camberFirst: [0.03, 0.006],
  camberSecond: [0.0355, 0.004],
};
const KEYS = Object.keys(PRIOR) as (keyof Unknowns)[];

const SECTION_WEIGHT = 0.7;
const ANNULI = 20;

const rotors = [...STATIC_ROTORS, ADVANCE_ROTOR].map((rotor) => ({ rotor, points: measuredPoints(rotor) }));

const fitOf = ({ camberFirst, camberSecond, ...constants }: Unknowns): SectionFit => ({
  constants: { ...constants, laminarSpread: FITTED.laminarSpread },
  camber: { first: camberFirst, second: camberSecond },
});

/** Everything that ought to be zero, in its own standard deviations. */
function residuals(unknowns: Unknowns, leftOut: string): number[] {
  const { constants, camber } = fitOf(unknowns);
  const list: number[] = [];
  for (const { rotor, points } of rotors) {
    if (rotor.geometry === leftOut) continue;
    const blade = bladeOf(rotor, camber[rotor.section], 0, ANNULI);
    const weight = Math.sqrt(12 / points.length) * (rotor.advance ? 0.8 : 1);
    for (const point of points) {
      const { CT, CP } = computedPoint(blade, rotor.diameter, point, constants);
      // Below 2 500 rpm the small stand's torque scatters.
      const trust = weight * (point.rpm < 2500 && rotor.diameter < 0.2 ? 0.5 : 1);
      // Near zero thrust a ratio means nothing: errors there are on typical values.
      const [scaleT, scaleP] = rotor.advance ? [0.1, 0.08] : [point.CT, point.CP];
      list.push((trust * (CT - point.CT)) / scaleT / 0.03, (trust * (CP - point.CP)) / scaleP / 0.04);
    }
  }
  for (const section of SECTIONS.filter((s) => s.fitted)) {
    for (const p of sectionPoints(section, constants)) {
      list.push(
        (SECTION_WEIGHT * (p.ourCl - p.cl)) / 0.06,
        (SECTION_WEIGHT * Math.log(p.ourCd / p.cd)) / 0.15,
      );
    }
  }
  for (const key of KEYS) list.push((unknowns[key] - PRIOR[key][0]) / PRIOR[key][1]);
  return list;
}

const square = (list: readonly number[]) => list.reduce((sum, x) => sum + x * x, 0);

function fit(leftOut: string): Unknowns {
  let at = Object.fromEntries(KEYS.map((key) => [key, PRIOR[key][0]])) as Unknowns;
  let here = residuals(at, leftOut);
  let damping = 1e-2;
  for (let step = 0; step < 16; step++) {
    const slopes = KEYS.map((key) => {
      const h = PRIOR[key][1] * 0.02;
      const there = residuals({ ...at, [key]: at[key] + h }, leftOut);
      return there.map((value, i) => (value - here[i]) / h);
    });
    const normal = slopes.map((a) => slopes.map((b) => a.reduce((sum, x, i) => sum + x * b[i], 0)));
    const pull = slopes.map((a) => -a.reduce((sum, x, i) => sum + x * here[i], 0));
    let better = false;
    for (let attempt = 0; attempt < 6 && !better; attempt++) {
      const move = solve(
        normal.map((row, i) => row.map((x, k) => (i === k ? x * (1 + damping) : x))),
        pull,
      );
      const next = Object.fromEntries(KEYS.map((key, i) => [key, at[key] + move[i]])) as Unknowns;
      const there = residuals(next, leftOut);
      if (square(there) < square(here)) {
        const gain = 1 - square(there) / square(here);
        [at, here, better] = [next, there, true];
        damping = Math.max(1e-4, damping / 4);
        if (gain < 1e-3) return at;
      } else damping *= 5;
    }
    if (!better) break;
  }
  return at;
}

/** Gauss with row exchange. */
function solve(matrix: number[][], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]]);
  const n = rows.length;
  for (let i = 0; i < n; i++) {
    let most = i;
    for (let k = i; k < n; k++) if (Math.abs(rows[k][i]) > Math.abs(rows[most][i])) most = k;
    [rows[i], rows[most]] = [rows[most], rows[i]];
    for (let k = 0; k < n; k++) {
      if (k === i) continue;
      const factor = rows[k][i] / rows[i][i];
      for (let j = i; j <= n; j++) rows[k][j] -= factor * rows[i][j];
    }
  }
  return rows.map((row, i) => row[n] / row[i]);
}

const rounded = (fitted: Unknowns): SectionFit => {
  const four = (x: number) => Number(x.toPrecision(4));
  return fitOf(Object.fromEntries(KEYS.map((key) => [key, four(fitted[key])])) as Unknowns);
};

const geometries = [...new Set(STATIC_ROTORS.map((r) => r.geometry))];
const fits: Record<string, SectionFit> = { all: rounded(fit('')) };
console.log(JSON.stringify(fits.all, null, 2));
for (const geometry of geometries) {
  fits[geometry] = rounded(fit(geometry));
  console.log('left out', geometry, fits[geometry].camber);
}
writeFileSync(
  new URL('../checks/data/section-fits.json', import.meta.url),
  JSON.stringify(fits, null, 2) + '\n',
);
