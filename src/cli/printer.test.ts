import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from './run.ts';

const scout = fileURLToPath(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
);
const folder = mkdtempSync(join(tmpdir(), 'fanwright-printer-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => join(folder, name);

async function printer(...args: string[]) {
  let out = '';
  let err = '';
  const code = await run(['printer', ...args], {
    out: (t) => void (out += t),
    err: (t) => void (err += t),
  });
  return { code, out, err };
}

describe('printer', () => {
  it('says what the printer makes of the blades, in words and as JSON alike', async () => {
    const { code, out, err } = await printer(scout);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('typical values, not measured');
    const json = JSON.parse((await printer(scout, '--json')).out);
    expect(json.print.stations).toHaveLength(7);
    expect(json.thrustToWeight.printed).toBeLessThan(json.thrustToWeight.drawn);
    const plain = (text: string) => text.replace(/\s+/g, ' ');
    expect(plain(out)).toContain(plain(json.smallest.words));
    expect(json.written).toEqual([]);
  });

  it('writes the coupon, takes up its readings and writes the project with them', async () => {
    const coupon = await printer(scout, '--coupon', at('coupon.stl'));
    expect(coupon.code).toBe(0);
    const stl = readFileSync(at('coupon.stl'));
    expect(statSync(at('coupon.stl')).size).toBe(84 + 50 * stl.readUInt32LE(80));
    writeFileSync(
      at('r.json'),
      '{"thinnestWholeFin_mm": 0.5, "pins": [{"nominal_mm": 5, "measured_mm": [5.2, 5.24, 5.16]}]}',
    );
    const taken = await printer(scout, '--readings', at('r.json'), '--out', at('mine.fanwright.json'));
    expect(taken.code).toBe(0);
    const { printer: profile } = JSON.parse(readFileSync(at('mine.fanwright.json'), 'utf8'));
    expect(profile).toMatchObject({
      source: 'coupon',
      xyError_mm: 0.1,
      xyScatter_mm: 0.02,
      minimumWall_mm: 0.5,
    });
    const again = await printer(at('mine.fanwright.json'));
    expect(again.out).toContain('from a printed coupon');
  });

  it('refuses with one sentence and writes nothing', async () => {
    writeFileSync(at('bad.json'), '{"pins": [{"nominal_mm": 5, "measured_mm": 8}]}');
    writeFileSync(at('text.json'), 'thin');
    for (const [args, said] of [
      [['--out', at('no.json')], '--readings'],
      [['--readings', at('bad.json')], '8 mm was read on the size 5 mm'],
      [['--readings', at('text.json')], 'is not JSON'],
      [['--readings', at('none.json')], 'none.json'],
    ] as const) {
      const { code, out, err } = await printer(scout, ...args);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toContain(said);
      expect(err.trim().split('\n')).toHaveLength(1);
    }
  });
});
