/** Builds speed/annulus.c and runs it on the same fan as the TypeScript. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Air } from '../src/air/atmosphere.ts';
import { gapShare } from '../src/air/gap.ts';
import type { Passage } from '../src/air/passage.ts';
import type { RotorAir } from '../src/air/rotor.ts';
import { FITTED } from '../src/air/section-constants.ts';

/** What the C program says of a fan: thrust [N] and torque [Nm] at each speed, and the time of one fan [ns]. */
export interface Measured {
  readonly thrust: readonly number[];
  readonly torque: readonly number[];
  readonly each_ns: number;
}

export interface Yardstick {
  readonly compiler: string;
  /** Runs the fan at rest at `omegas` [rad/s], `rounds` times over. */
  readonly run: (
    rotor: RotorAir,
    passage: Passage,
    air: Air,
    omegas: readonly number[],
    rounds: number,
  ) => Measured;
}

/** The yardstick, compiled from `source` into `folder`; null where this machine has no C compiler. */
export function buildYardstick(source: string, folder: string): Yardstick | null {
  const compiler = ['gcc', 'cc'].find((name) => spawnSync(name, ['--version']).status === 0);
  if (!compiler) return null;
  const program = join(folder, 'annulus');
  const constants = Object.entries({ ...FITTED, LARGEST_SHARE: gapShare(Infinity) });
  const lines = constants.map(([name, value]) => `static const double ${name} = ${value};\n`);
  writeFileSync(join(folder, 'constants.h'), lines.join(''));
  // Fused multiply-add is off so that both languages round alike.
  const built = spawnSync(
    compiler,
    ['-std=c11', '-O2', '-ffp-contract=off', '-Wall', '-I', folder, source, '-o', program, '-lm'],
    { encoding: 'utf8' },
  );
  if (built.status !== 0) throw new Error(`${source} does not compile:\n${built.stderr}`);
  return {
    compiler,
    run: (rotor, passage, air, omegas, rounds) => {
      const input = [...fanNumbers(rotor, passage, air), omegas.length, ...omegas, rounds].join(' ');
      const done = spawnSync(program, { input, encoding: 'utf8' });
      if (done.status !== 0) throw new Error(`The C yardstick failed: ${done.stderr || 'no finite answer'}`);
      const lines = done.stdout.trim().split('\n');
      const pairs = lines.slice(0, omegas.length).map((line) => line.split(' ').map(Number));
      return {
        thrust: pairs.map(([thrust]) => thrust),
        torque: pairs.map(([, torque]) => torque),
        each_ns: Number(lines[omegas.length]),
      };
    },
  };
}

/** The fan at rest as the C program reads it. */
function fanNumbers(rotor: RotorAir, passage: Passage, air: Air): number[] {
  if (passage.vanes || passage.inflow || rotor.sections.some((s) => s.polar))
    throw new Error('The C yardstick knows no curved vanes, uneven inflow or measured polars.');
  const annuli = rotor.sections.flatMap((s, i) => [
    ...[rotor.radius[i], rotor.width[i], rotor.chord[i], rotor.angle[i], rotor.lattice[i]],
    ...[s.thickness, s.camber, s.camberPosition, s.trailingEdge, s.nose ?? 1, s.roughness ?? 0],
  ]);
  const { exitRatio, reversedExitRatio, reversedLoss, swirlRecovery, gapOverHeight, bladeAspect } = passage;
  const { inletLip, wallFriction, hubBase, struts, exitExpansion } = passage.losses;
  return [
    rotor.radius.length,
    ...annuli,
    ...[rotor.bladeCount, rotor.hubRadius, rotor.tipRadius],
    ...[exitRatio, reversedExitRatio, reversedLoss, swirlRecovery, gapOverHeight, bladeAspect],
    ...[inletLip, wallFriction, hubBase, struts, exitExpansion],
    ...[air.density, air.viscosity, air.soundSpeed, 0],
  ];
}
