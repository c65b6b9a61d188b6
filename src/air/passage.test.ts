import { expect, test } from 'vitest';
import { gapEfficiencyLoss, gapShare } from './gap.ts';
import { inletLossFree, inletLossInWall } from './inlet.ts';
import { baseDrag, exitLoss, laminarPlateFriction, plateFriction, vaneRecovery } from './passage.ts';

const rising = (values: number[]) => values.every((v, i) => i === 0 || v > values[i - 1]);

test('a rounder lip loses less; a free edge more than one in a wall, until the lip is round', () => {
  const radii = [0, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2];
  expect(rising(radii.map((r) => -inletLossInWall(r)))).toBe(true);
  expect(rising(radii.map((r) => -inletLossFree(r)))).toBe(true);
  expect(inletLossFree(0)).toBeCloseTo(1, 12);
  expect(inletLossFree(0.12)).toBe(inletLossInWall(0.12));
});

test('the gap costs nothing when closed, more the wider it is, never more than 22 %', () => {
  const gaps = [0, 0.005, 0.01, 0.03, 0.1, 1];
  const shares = gaps.map((g) => gapShare(gapEfficiencyLoss(g, 0.15, 0.35, 2)));
  expect(shares[0]).toBe(0);
  expect(rising(shares)).toBe(true);
  expect(shares[5]).toBeLessThanOrEqual(0.22);
});

test('1 % of blade height costs about what a 127 mm turbine lost: 1.5 to 2.0 % (NASA TP-1032)', () => {
  const loss = gapEfficiencyLoss(0.03, 0.15, 0.35, 2) / 3;
  expect(loss).toBeGreaterThan(0.012);
  expect(loss).toBeLessThan(0.025);
});

test('exit cone: nothing when straight, at most a sudden expansion', () => {
  expect(exitLoss(1, 0)).toBe(0);
  expect(exitLoss(1.4, 0.1)).toBeLessThan(exitLoss(1.4, 0.3));
  expect(exitLoss(1.4, 1.5)).toBeCloseTo((1 - 1 / 1.4) ** 2, 12);
  expect(exitLoss(0.8, 0)).toBeGreaterThan(0);
});

test('vanes recover more the closer they stand, most where they meet the swirl, never all', () => {
  const turn = 0.3;
  const at = (pitchOverChord: number, angle: number) => vaneRecovery({ turn, pitchOverChord }, angle);
  expect(at(4, turn)).toBeLessThan(at(1, turn));
  expect(at(1, turn)).toBeGreaterThan(at(1, turn + 0.15));
  expect(at(1, turn)).toBeGreaterThan(at(1, turn - 0.15));
  expect(at(0.01, turn)).toBeLessThan(1);
  expect(at(1, 0.05)).toBe(0);
  expect(at(1, 0)).toBe(0);
});

test('friction coefficients at a known Reynolds number', () => {
  expect(plateFriction(1e6)).toBeCloseTo(0.074 * 1e6 ** -0.2, 12);
  expect(laminarPlateFriction(1e4)).toBeCloseTo(0.01328, 9);
  expect(baseDrag(0.04)).toBeCloseTo(0.145, 6);
});
