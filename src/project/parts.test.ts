import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { motors } from './catalogue.ts';
import { ownPartFrom, readPartsCsv, withoutPart, withPart, type OwnPart } from './parts.ts';

const HEAD = 'name,resistance_mohm,switchingLoss_ratio,continuousCurrent_A,mass_g';

describe('readPartsCsv', () => {
  it('reads parts, quoted names and defaults', () => {
    const read = readPartsCsv(
      'controller',
      `\ufeff${HEAD}\r\n"board, ""blue""",9,0.04,20,2.2\r\n\r\nred,5,0.03,35,3\n`,
    );
    expect(read).toEqual({
      ok: true,
      parts: [
        {
          kind: 'controller',
          part: {
            name: 'board, "blue"',
            resistance_mohm: 9,
            switchingLoss_ratio: 0.04,
            rippleLoss_S: 0.5,
            continuousCurrent_A: 20,
            mass_g: 2.2,
          },
        },
        { kind: 'controller', part: expect.objectContaining({ name: 'red', mass_g: 3 }) as unknown },
      ],
    });
  });

  it('takes a decimal comma where semicolons stand between', () => {
    const read = readPartsCsv('controller', `${HEAD.replaceAll(',', ';')}\nred;5;0,03;35;3,5`);
    expect(read.ok && read.parts[0].part.mass_g).toBe(3.5);
  });

  it('says line and column of what it cannot take, and takes nothing then', () => {
    const read = readPartsCsv('controller', `${HEAD}\ngood,5,0.03,35,3\nbad,5,3,lots,3\n,5,0.03,35,3`);
    expect(read).toEqual({
      ok: false,
      errors: [
        'Line 3, column 3: controller.switchingLoss_ratio is 3; it must be 0 to 0.3.',
        expect.stringMatching(
          /^Line 3, column 4: controller.continuousCurrent_A is the text "lots"; it must/,
        ),
        'Line 4: the controller has no name.',
      ],
    });
  });

  it('names unknown, doubled and missing columns', () => {
    const read = readPartsCsv('controller', 'name,resistance_mOhm,mass_g,mass_g\na,1,2,3');
    const text = read.ok ? '' : read.errors.join('\n');
    expect(text).toMatch(
      /Line 1, column 2: "resistance_mOhm" is no key of a controller. resistance_mohm looks/,
    );
    expect(text).toMatch(/Line 1, column 4: mass_g stands there a second time/);
    expect(text).toMatch(/Line 1: controller.continuousCurrent_A is missing/);
    expect(readPartsCsv('motor', 'name').ok).toBe(false);
  });

  it('is total', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        readPartsCsv('battery', text);
        readPartsCsv('controller', `${HEAD}\n${text}`);
      }),
    );
  });

  it('reads back what the generic motors hold', () => {
    const keys = Object.keys(motors[0].part) as (keyof (typeof motors)[0]['part'])[];
    const rows = motors.map(({ part }) => keys.map((key) => `"${String(part[key])}"`).join(','));
    const read = readPartsCsv('motor', [keys.join(','), ...rows].join('\n'));
    expect(read).toEqual({ ok: true, parts: motors.map(({ part }) => ({ kind: 'motor', part })) });
  });
});

describe('a list of own parts', () => {
  const part = (name: string, mass_g: number): OwnPart => ({
    kind: 'motor',
    part: { ...motors[0].part, name, mass_g },
  });

  it('keeps one of a name', () => {
    const list = withPart(withPart([part('a', 1)], part('b', 2)), part('a', 3));
    expect(list.map((p) => [p.part.name, p.part.mass_g])).toEqual([
      ['b', 2],
      ['a', 3],
    ]);
    expect(withoutPart(list, part('b', 9))).toHaveLength(1);
  });

  it('takes apart only what is a part', () => {
    expect(ownPartFrom(part('a', 1))).toEqual(part('a', 1));
    for (const odd of [null, 3, {}, { kind: 'hat', part: {} }, { kind: 'motor', part: { name: 'a' } }])
      expect(ownPartFrom(odd)).toBeNull();
  });
});
