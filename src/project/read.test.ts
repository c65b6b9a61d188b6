import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { migrate } from './migrate.ts';
import { readProject } from './read.ts';
import { writeProject } from './write.ts';

const file = new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url);
const text = readFileSync(file, 'utf8');

/** The demo with changes, as text. */
// eslint-disable-next-line @typescript-eslint/no-explicit-any -- raw JSON of any shape
function changed(change: (raw: any) => void): string {
  const raw = JSON.parse(text);
  change(raw);
  return JSON.stringify(raw);
}
const errorsOf = (input: string | Uint8Array) => {
  const result = readProject(input);
  return result.ok ? [] : result.errors.map((e) => `[${e.path}] ${e.message}`);
};
const bytes = (...values: number[]) => Uint8Array.from(values);

describe('readProject', () => {
  it('reads the demo without a note, from text, from bytes and with a byte order mark', () => {
    for (const input of [
      text,
      new TextEncoder().encode(text),
      new TextEncoder().encode('\ufeff' + text),
      '\ufeff' + text,
      text.replaceAll('\n', '\r\n'),
    ]) {
      const result = readProject(input);
      expect(result.ok && result.notes).toEqual([]);
    }
  });

  it('says of each wrong value what was found and what is accepted', () => {
    expect(
      errorsOf(
        changed((p) => {
          p.name = 7;
          p.brief.payload_g = null;
          p.craft.fanCount = 3.5;
          p.craft.layout = 'circle';
          p.motor.mass_g = '12';
          p.battery.cells = 1e300;
          p.fan.tipDiameter_mm = -3;
          p.fan.blade[1].angle_deg = 91;
          p.fan.duct.tailCone = 1;
          p.printer = [];
        }),
      ),
    ).toEqual([
      '[name] name is 7; it must be text in quotes, at most 200 characters.',
      '[brief.payload_g] brief.payload_g is null; it must be a number from 0 to 20000 g.',
      '[craft.fanCount] craft.fanCount is 3.5; it must be a whole number from 1 to 12.',
      '[craft.layout] craft.layout is "circle"; it must be one of "ring", "row", "two rows".',
      '[motor.mass_g] motor.mass_g is the text "12"; it must be a number from 0.1 to 2000 g.',
      '[battery.cells] battery.cells is 1e+300; it must be a whole number from 1 to 14.',
      '[fan.tipDiameter_mm] fan.tipDiameter_mm is -3; it must be 10 to 1500 mm.',
      '[fan.blade.1.angle_deg] fan.blade.1.angle_deg is 91; it must be -90 to 90°.',
      '[fan.duct.tailCone] fan.duct.tailCone is 1; it must be true or false.',
      '[printer] printer is a list; it must be a group in braces.',
    ]);
  });

  it('says of a missing key what it is for, and points at a slip beside it', () => {
    expect(
      errorsOf(
        changed((p) => {
          p.fan.tipDiamter_mm = p.fan.tipDiameter_mm;
          delete p.fan.tipDiameter_mm;
          delete p.fan.stator;
          p.fan.blade = [];
        }),
      ),
    ).toEqual([
      '[fan.tipDiameter_mm] fan.tipDiameter_mm is missing; it must be a number from 10 to 1500 mm. Diameter over the blade tips. Is "tipDiamter_mm" beside it a slip for it?',
      '[fan.blade] fan.blade has 0 entries; it must be a list of 1 to 40 entries.',
      '[fan.stator] fan.stator is missing; it must be a group in braces with vaneCount, chord_mm, thickness_mm, turn_deg and curved.',
    ]);
  });

  it('keeps unknown keys at every depth, notes them, and names the key they look like', () => {
    const input = changed((p) => {
      p.colour = 'green';
      p.fan.duct.tailcone = true;
      p.fan.blade[2].sweep_deg = 3;
      p.motor.constructor = { a: [1] };
    });
    const result = readProject(input);
    if (!result.ok) throw new Error(JSON.stringify(result.errors));
    expect(result.notes).toEqual([
      {
        path: 'motor.constructor',
        message: 'motor.constructor is not a key this program knows; it is kept as it is.',
      },
      {
        path: 'fan.blade.2.sweep_deg',
        message: 'fan.blade.2.sweep_deg is not a key this program knows; it is kept as it is.',
      },
      {
        path: 'fan.duct.tailcone',
        message:
          'fan.duct.tailcone is not a key this program knows; it is kept as it is. Did you mean tailCone?',
        meant: 'tailCone',
      },
      { path: 'colour', message: 'colour is not a key this program knows; it is kept as it is.' },
    ]);
    const back = JSON.parse(writeProject(result.project));
    expect(back).toMatchObject(JSON.parse(input));
  });

  it('needs each build to have its own plain id', () => {
    const build = (id: string) => (p: Record<string, unknown>) => ({ id, name: id, design: p });
    expect(
      errorsOf(
        changed(
          (p) =>
            (p.builds = ['a', 'b', 'a', ' c', 'd\u0007', ''].map((id) =>
              build(id)({ ...p, builds: undefined }),
            )),
        ),
      ),
    ).toEqual([
      `[builds.5.id] builds.5.id is an empty text; it must be text in quotes, not empty, at most 60 characters.`,
    ]);
    expect(
      errorsOf(
        changed(
          (p) =>
            (p.builds = ['a', 'b', 'a', ' c', 'd\u0007'].map((id) => build(id)({ ...p, builds: undefined }))),
        ),
      ),
    ).toEqual([
      '[builds.2.id] builds.2.id is "a", which builds.0.id is too; each build needs its own id.',
      '[builds.3.id] builds.3.id begins or ends with a space or holds a control character; use letters, digits, spaces and signs.',
      '[builds.4.id] builds.4.id begins or ends with a space or holds a control character; use letters, digits, spaces and signs.',
    ]);
  });

  it('refuses versions it cannot read, without a guess', () => {
    expect(errorsOf(changed((p) => (p.schemaVersion = 3)))).toEqual([
      '[schemaVersion] The file was written by a newer Fanwright (version 3; this one reads up to 1); the file was not touched.',
    ]);
    expect(errorsOf(changed((p) => delete p.schemaVersion))).toEqual([
      '[schemaVersion] schemaVersion is missing; a project file says which version of the format it is in, as in "schemaVersion": 1.',
    ]);
    expect(errorsOf(changed((p) => (p.schemaVersion = '1')))).toEqual([
      '[schemaVersion] schemaVersion is the text "1"; it must be the number 1.',
    ]);
    expect(errorsOf(changed((p) => (p.schemaVersion = 0)))).toHaveLength(1);
  });

  it('refuses bytes that are no project file, in one sentence', () => {
    expect(errorsOf('')).toEqual(['[] The file is empty; a project file is JSON text.']);
    expect(errorsOf(bytes())).toEqual(['[] The file is empty; a project file is JSON text.']);
    expect(errorsOf('[]')).toEqual(['[] The file holds a list; a project file is one group in braces.']);
    expect(errorsOf('null')).toEqual(['[] The file holds null; a project file is one group in braces.']);
    expect(errorsOf('{"a": 1,}')).toEqual([
      '[] The file cannot be read as JSON: line 1, column 9: expected a key in double quotes, found "}".',
    ]);
    expect(errorsOf(bytes(0xff, 0xfe, 0x7b, 0, 0x7d, 0))).toEqual([
      '[] The file is UTF-16 text; save it again as UTF-8.',
    ]);
    expect(errorsOf(bytes(0x7b, 0, 0x7d, 0))).toEqual([
      '[] The file is UTF-16 text; save it again as UTF-8.',
    ]);
    expect(errorsOf(bytes(0x7b, 10, 0x22, 0xe9, 0x22))).toEqual([
      '[] The file is not UTF-8 text (first odd byte: line 2, column 2); a project file is JSON text saved as UTF-8.',
    ]);
  });

  it('lists at most a hundred of very many errors, and counts the rest', () => {
    const errors = errorsOf(changed((p) => (p.craft.fixedMasses = Array(500).fill(3))));
    expect(errors).toHaveLength(101);
    expect(errors[100]).toBe('[] There are 400 more errors like these.');
  });
});

describe('migrate', () => {
  const steps = {
    1: ({ width, ...rest }: Record<string, unknown>) => ({ ...rest, width_mm: width }),
    2: (raw: Record<string, unknown>) => ({ ...raw, colour: raw.colour ?? 'grey' }),
  };

  it('goes through every step up to the newest version and keeps what it does not know', () => {
    expect(migrate({ schemaVersion: 1, width: 3, extra: [1] }, 3, steps)).toEqual({
      ok: true,
      file: { schemaVersion: 3, width_mm: 3, extra: [1], colour: 'grey' },
    });
    expect(migrate({ schemaVersion: 2, width: 3 }, 3, steps)).toEqual({
      ok: true,
      file: { schemaVersion: 3, width: 3, colour: 'grey' },
    });
  });

  it('leaves the newest version alone and says when a step is gone', () => {
    const newest = { schemaVersion: 3 };
    const result = migrate(newest, 3, steps);
    expect(result.ok && result.file).toBe(newest);
    expect(migrate({ schemaVersion: 1 }, 3, { 2: steps[2] })).toEqual({
      ok: false,
      error: { path: 'schemaVersion', message: 'This Fanwright has no way to read version 1 any more.' },
    });
  });
});
