import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { run } from './run.ts';

const FILE = fileURLToPath(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
);

async function ask(...args: string[]) {
  let out = '';
  let err = '';
  const code = await run(['sound', FILE, ...args], {
    out: (text) => (out += text),
    err: (text) => (err += text),
  });
  return { code, out: out.replace(/\s+/g, ' '), err };
}

interface Json {
  hover: { overall_dBA: { value: number } };
  comparison: { difference_dB: { value: number }; b: { at: { rpm: number } } };
}

describe('fanwright sound', () => {
  test('levels with intervals, tones, patterns, and what to mind', async () => {
    const { code, out } = await ask();
    expect(code).toBe(0);
    expect(out).toMatch(/In hover about \d+ dB\(A\) \(\d+ to \d+\) at 3 m over hard ground/);
    expect(out).toContain('You accept 72 dB(A)');
    expect(out).toContain('Patterns that spin in the duct');
    expect(out).toContain('hearing protection');
    expect(out).toContain('the local ones hold');
  });

  test('farther away is quieter by the law of distance', async () => {
    const at = async (m: string) =>
      (JSON.parse((await ask('--distance', m, '--json')).out) as Json).hover.overall_dBA.value;
    expect((await at('3')) - (await at('30'))).toBeCloseTo(20, 6);
  });

  test('--against open compares at equal thrust, not at equal speed', async () => {
    const { comparison, hover } = JSON.parse((await ask('--against', 'open', '--json')).out) as Json & {
      hover: { rpm: number };
    };
    expect(Number.isFinite(comparison.difference_dB.value)).toBe(true);
    expect(comparison.b.at.rpm).toBeGreaterThan(hover.rpm * 1.02);
    expect((await ask('--against', 'open')).out).toContain('the open rotor');
  });

  test('--wav writes a file once, and says that it is a synthesis', async () => {
    const wav = join(mkdtempSync(join(tmpdir(), 'fanwright-')), 'hover.wav');
    expect((await ask('--wav', wav)).out).toContain('A synthesis from predicted levels, not a recording');
    expect(readFileSync(wav).subarray(0, 4).toString()).toBe('RIFF');
    const again = await ask('--wav', wav);
    expect([again.code, again.out]).toEqual([2, '']);
    expect(again.err).toContain('--force');
  });

  test('bad questions are refused in a sentence, before anything is written', async () => {
    const gone = await ask('--against', '/nowhere/x.json');
    expect([gone.code, gone.out]).toEqual([2, '']);
    expect(gone.err).toContain('no such file');
    expect((await ask('--distance', '0')).err).toMatch(/^--distance is 0; it must be a number from 0\.3 to/);
    expect((await ask('--against', 'build:nine')).err).toContain('nine');
    const open = await ask('--set', 'fan.kind=open', '--against', 'open');
    expect(open.err).toContain('is an open rotor already');
    const dir = mkdtempSync(join(tmpdir(), 'fanwright-'));
    const other = join(dir, 'other.json');
    writeFileSync(other, readFileSync(FILE));
    expect((await ask('--against', other, '--wav', other, '--force')).err).toContain(
      'is the file this run reads',
    );
  });
});
