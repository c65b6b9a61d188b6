import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { example, here, workshop } from '../../tests/program.ts';

const demo = example('greenhouse-scout');
const { at, child, leave } = workshop('design');
afterAll(leave);

describe('design', () => {
  it('prints stations, design point, limits and before and after, and writes nothing', () => {
    const { code, out, err } = child('design', demo, '--rpm', '15333');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Greenhouse scout: 5 blades with a straight chord that prints well\n/);
    for (const heading of [
      'Stations',
      'Design point, one fan',
      'Off the design, as drawn',
      'The craft',
      'To mind',
    ])
      expect(out).toContain(`\n${heading}\n`);
    expect(out).toMatch(/Hover time +\d+ min \d+ s +\d+ min \d+ s/);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('writes a project that assess reads, with the figures it told', () => {
    const { code, out } = child('design', demo, '--throttle', '0.7', '--out', 'new.json', '--json');
    expect(code).toBe(0);
    const design = JSON.parse(out);
    const written = JSON.parse(readFileSync(at('new.json'), 'utf8'));
    expect(written.fan.blade).toEqual(design.stations);
    const assessed = JSON.parse(child('assess', 'new.json', '--json').out);
    expect(assessed.craft.hoverThrottle).toBe(design.after.hoverThrottle);
    expect(assessed.craft.thrustToWeight).toBe(design.after.thrustToWeight);
    expect(Math.abs(design.point.thrust_N / design.point.wantedThrust_N - 1)).toBeLessThan(0.005);
    expect(design.point.throttle).toBeCloseTo(0.7, 2);
    expect(design.annuli.radius_mm.length).toBe(design.annuli.pressure_Pa.length);
  });

  it('takes blades, loading, thrust and lift', async () => {
    const options = [
      '--blades',
      '3',
      '--loading',
      'free-vortex',
      '--thrust',
      '0.5',
      '--rpm',
      '15000',
      '--lift',
      '0.6',
    ];
    const { code, out } = await here('design', demo, ...options, '--json');
    expect(code).toBe(0);
    const design = JSON.parse(out);
    expect(design).toMatchObject({ loading: 'free-vortex', bladeCount: 3 });
    expect(design.point.rpm).toBeCloseTo(15_000, 6);
    expect(Math.abs(design.point.thrust_N / 0.5 - 1)).toBeLessThan(0.005);
  });

  it('does not write over a file unless told to', async () => {
    writeFileSync(at('old.json'), 'precious');
    const refused = await here('design', demo, '--out', at('old.json'));
    expect(refused).toEqual({
      code: 2,
      out: '',
      err: `${at('old.json')} is already there; choose another name, or add --force to write over it.\n`,
    });
    expect(readFileSync(at('old.json'), 'utf8')).toBe('precious');
    expect((await here('design', demo, '--rpm', '15333', '--out', at('old.json'), '--force')).code).toBe(0);
    expect(JSON.parse(readFileSync(at('old.json'), 'utf8')).name).toBe('Greenhouse scout');
  });

  it('refuses in one sentence what is out of reach or badly asked, and writes nothing', async () => {
    const cases: [string[], RegExp][] = [
      [['--rpm', '5000'], /out of reach of this rotor/],
      [['--thrust', '3', '--throttle', '0.5'], /^At 50\s% throttle the drive cannot give/],
      [['--rpm', 'fast'], /^--rpm is "fast"; it must be a number from 10 to 200000 rpm\.$/m],
      [['--blades', '2.5'], /^--blades is 2\.5; it must be a whole number from 1 to 20\.$/m],
      [['--rpm', '9000', '--throttle', '0.5'], /cannot be used with option/],
      [['--loading', 'even'], /Allowed choices are printable, uniform, free-vortex/],
    ];
    for (const [options, sentence] of cases) {
      const { code, out, err } = await here('design', demo, ...options, '--out', at('none.json'));
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(/^[^\n]+[.?]\n$/);
      expect(err).toMatch(sentence);
      expect(existsSync(at('none.json'))).toBe(false);
    }
  });
});
