import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { run } from './run.ts';

const FILE = fileURLToPath(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
);

async function ask(...args: string[]) {
  let out = '';
  let err = '';
  const code = await run(['strength', FILE, ...args], {
    out: (text) => (out += text),
    err: (text) => (err += text),
  });
  return { code, out: out.replace(/\u00a0/g, ' '), err: err.replace(/\u00a0/g, ' ') };
}

describe('fanwright strength', () => {
  test('the answer, the table by radius, what gives way, and the cautions', async () => {
    const { code, out } = await ask();
    expect(code).toBe(0);
    expect(out).toMatch(/fails near [\d ]+ rpm, [\d.]+ times that/);
    expect(out).toMatch(/radius +pull +bending +peak +allowed/);
    expect(out).toMatch(/the blade at its root, radius 10\.5 mm/);
    expect(out).toContain('eye protection');
  });

  test('--rpm looks at that speed: four times the stress at twice the speed', async () => {
    const stress = async (rpm: string) =>
      (JSON.parse((await ask('--rpm', rpm, '--json')).out) as { modes: { stress_MPa: number }[] }).modes[0]
        .stress_MPa;
    const ratio = (await stress('20000')) / (await stress('10000'));
    expect(ratio).toBeGreaterThan(3.9);
    expect(ratio).toBeLessThan(4.1);
    const { out } = await ask('--rpm', '60000');
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /does not keep its factor of 3 on strength: do not run it above/,
    );
    expect(out).not.toContain('full throttle');
  });

  test('no blade, or a speed that is none: one sentence and code 2', async () => {
    const none = await ask('--set', 'fan.hubDiameter_mm=70');
    expect([none.code, none.out]).toEqual([2, '']);
    expect(none.err).toMatch(/leaves no blade .*; make the hub smaller\.\n$/);
    expect((await ask('--rpm', 'fast')).err).toMatch(/^--rpm is "fast"; it must be a number from 1 to/);
  });
});
