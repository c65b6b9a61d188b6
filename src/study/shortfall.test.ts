import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { assess } from '../assess/assess.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import { shortfallOf } from './shortfall.ts';
import { scaledFan, turned } from './tried.ts';

const read = (name: string): Project =>
  projectSchema.parse(
    JSON.parse(
      readFileSync(
        new URL(`../../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url),
        'utf8',
      ),
    ),
  );
const heavy = read('greenhouse-scout-heavy');
const short = shortfallOf(heavy);

test('the sister that does not lift: three sentences, the two largest causes with what would mend each', () => {
  expect(short.lifts).toBe(false);
  expect(short.sentences).toHaveLength(3);
  expect(short.causes.map((c) => c.kind).slice(0, 2)).toEqual(['drive', 'disc']);
  expect(short.sentences[0]).toContain('the power of its drive and the size of its discs');
  expect(short.sentences[2]).toMatch(/tips of [\d.]+ mm instead of 48.0/);
  const gains = short.causes.map((c) => c.gain);
  expect(gains).toEqual([...gains].sort((a, b) => b - a));
});

test('what one cause alone would take does carry the craft when the whole is assessed again', () => {
  const alone = (kind: string) => short.causes.find((c) => c.kind === kind)!.alone!;
  const volts = alone('drive');
  const faster = {
    ...heavy,
    motor: {
      ...heavy.motor,
      velocityConstant_rpmPerV: heavy.motor.velocityConstant_rpmPerV * volts,
      resistance_mohm: heavy.motor.resistance_mohm / volts ** 2,
    },
    controller: { ...heavy.controller, resistance_mohm: heavy.controller.resistance_mohm / volts ** 2 },
  };
  // Not the same as more volts, for the pack sags more; near enough to hold the sentence.
  expect(assess(faster).craft.thrustToWeight).toBeGreaterThan(0.93);
  const wider = assess({ ...heavy, fan: scaledFan(heavy.fan, alone('disc')) }).craft;
  expect((wider.thrustToWeight * wider.mass_g) / assess(heavy).craft.mass_g).toBeCloseTo(1, 1);
});

test('mass alone cannot carry it: bare of all payload it still is too heavy', () => {
  expect(short.causes.find((c) => c.kind === 'mass')!.alone).toBeNull();
  expect(assess({ ...heavy, brief: { ...heavy.brief, payload_g: 0 } }).craft.thrustToWeight).toBeLessThan(1);
});

test('one that lifts gets one sentence, and one whose blade is set backward three', () => {
  expect(shortfallOf(read('greenhouse-scout')).sentences).toHaveLength(1);
  const backward = { ...heavy, fan: turned(heavy.fan, -60) };
  expect(shortfallOf(backward)).toMatchObject({ lifts: false, causes: [] });
});
