import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { designOf, withBuild } from './builds.ts';
import { allPaths, checkValue, describePath, getPath, setPath, setText } from './path.ts';
import { readProject } from './read.ts';
import type { Project } from './schema.ts';
import { writeProject } from './write.ts';

const text = readFileSync(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
  'utf8',
);
const read = readProject(text);
if (!read.ok) throw new Error('the demo does not read');
const demo: Project = read.project;

const refused = (path: string, value: string) => {
  const result = setText(demo, path, value);
  return result.ok ? 'accepted' : result.error.message;
};

describe('paths', () => {
  it('gets and sets without touching the original, sharing what is off the path', () => {
    const before = JSON.stringify(demo);
    const after = setPath(demo, 'fan.blade.1.chord_mm', 99);
    expect(getPath(after, 'fan.blade.1.chord_mm')).toBe(99);
    expect(JSON.stringify(demo)).toBe(before);
    expect(after.motor).toBe(demo.motor);
    expect(after.fan.blade[0]).toBe(demo.fan.blade[0]);
    expect(Array.isArray(after.fan.blade)).toBe(true);
    expect(getPath(demo, 'fan.nothing.here')).toBeUndefined();
    expect(getPath(demo, 'fan.constructor')).toBeUndefined();
    expect(() => setPath(demo, 'fan.nothing', 1)).toThrow('setPath found nothing at "nothing"');
  });

  it('sets from typed text, by the kind of the field', () => {
    const set = (path: string, value: string) => {
      const result = setText(demo, path, value);
      if (!result.ok) throw new Error(result.error.message);
      return getPath(result.project, path);
    };
    expect(set('fan.tipDiameter_mm', ' 80.5 ')).toBe(80.5);
    expect(set('fan.blade.0.angle_deg', '-1e1')).toBe(-10);
    expect(set('fan.duct.tailCone', 'yes')).toBe(true);
    expect(set('fan.kind', 'open')).toBe('open');
    expect(set('brief.noiseWish_dBA', 'none')).toBe(null);
    expect(set('name', 'Two words')).toBe('Two words');
  });

  it('refuses typed text with the same sentences as a file, and points to the near key', () => {
    expect(refused('fan.tipDiameter_mm', '-3')).toBe('fan.tipDiameter_mm is -3; it must be 10 to 1500 mm.');
    expect(refused('fan.tipDiameter_mm', '1,5')).toBe(
      'fan.tipDiameter_mm is "1,5"; it must be a number from 10 to 1500 mm.',
    );
    expect(refused('fan.tipDiameter_mm', '')).toBe(
      'fan.tipDiameter_mm is empty; it must be a number from 10 to 1500 mm.',
    );
    expect(refused('fan.tipDiameter_mm', 'Infinity')).toBe(
      'fan.tipDiameter_mm is "Infinity"; it must be a number from 10 to 1500 mm.',
    );
    expect(refused('craft.fanCount', '2.5')).toBe(
      'craft.fanCount is 2.5; it must be a whole number from 1 to 12.',
    );
    expect(refused('fan.kind', 'shrouded')).toBe(
      'fan.kind is "shrouded"; it must be one of "ducted", "open".',
    );
    expect(refused('fan.tipDiamter_mm', '3')).toBe(
      'fan.tipDiamter_mm is not a place in a project file; did you mean fan.tipDiameter_mm?',
    );
    expect(refused('tipDiameter', '3')).toBe(
      'tipDiameter is not a place in a project file; did you mean fan.tipDiameter_mm?',
    );
    expect(refused('mass_g', '3')).toMatch(/did you mean craft.fixedMasses.0.mass_g or motor.mass_g/);
    expect(refused('qqqq', '3')).toBe('qqqq is not a place in a project file.');
    expect(refused('fan', '3')).toBe('fan is a group; set one of its keys, as in fan.kind.');
    expect(refused('fan.blade', '3')).toBe(
      'fan.blade is a list; set a value inside one of its entries, as in fan.blade.0.span_ratio.',
    );
    expect(refused('fan.blade.9.chord_mm', '3')).toBe(
      'fan.blade.9.chord_mm is not there: fan.blade has 4 entries, numbered 0 to 3.',
    );
    expect(refused('builds.0.name', 'x')).toBe('builds.0.name is not there: builds is an empty list.');
    expect(refused('schemaVersion', '2')).toBe(
      'schemaVersion tells the format of the file and cannot be set.',
    );
    expect(refused('__proto__.x', '2')).toBe('__proto__.x is not a place in a project file.');
  });

  it('describes every place with help, unit and range, through defaults, nulls and lists', () => {
    expect(describePath('fan.section.trailingEdge_mm')).toMatchObject({
      kind: 'number',
      unit: 'mm',
      min: 0,
      max: 5,
      fallback: 0,
    });
    expect(describePath('brief.noiseWish_dBA')).toMatchObject({
      kind: 'number',
      unit: 'dB(A)',
      nullable: true,
      fallback: null,
    });
    expect(describePath('battery.dischargeLimit_C')?.unit).toBe('C');
    expect(describePath('brief.airTemperature_C')?.unit).toBe('°C');
    expect(describePath('fan.blade.3.angle_deg')).toMatchObject({ unit: '°', min: -90, typical: '15 to 50' });
    expect(describePath('craft.fanCount')).toMatchObject({ kind: 'whole number', unit: '', min: 1, max: 12 });
    expect(describePath('fan.wings')).toBeNull();
    for (const path of allPaths()) {
      const field = describePath(path);
      if (field?.kind !== 'number' && field?.kind !== 'whole number') continue;
      expect(field.help, path).not.toBe('');
      expect(field.max, path).toBeGreaterThan(field.min!);
    }
    expect(allPaths()).toContain('builds.0.design.fan.blade.0.chord_mm');
  });

  it('checks a value without setting it', () => {
    expect(checkValue('fan.tipDiameter_mm', 80)).toBeNull();
    expect(checkValue('fan.tipDiameter_mm', NaN)?.message).toBe(
      'fan.tipDiameter_mm is NaN; it must be 10 to 1500 mm.',
    );
    expect(checkValue('fan.tipDiameter_mm', null)?.message).toBe(
      'fan.tipDiameter_mm is null; it must be a number from 10 to 1500 mm.',
    );
  });
});

describe('builds', () => {
  const built: Project = {
    ...demo,
    builds: [
      {
        id: 'a',
        name: 'First',
        state: 'made',
        date: '',
        why: '',
        learned: [],
        bench: [],
        design: designOf(setPath(demo, 'fan.tipDiameter_mm', 70)),
      },
    ],
  };
  it('freezes and brings back a design', () => {
    const result = withBuild(built, 'a');
    expect(result.ok && result.project.fan.tipDiameter_mm).toBe(70);
    expect(built.fan.tipDiameter_mm).toBe(demo.fan.tipDiameter_mm);
    expect(Object.keys(designOf(demo))).toEqual([
      'craft',
      'motor',
      'controller',
      'battery',
      'fan',
      'printer',
      'material',
      'calibration',
    ]);
  });
  it('lists the builds there are when the id is wrong', () => {
    const wrong = withBuild(built, 'b');
    expect(!wrong.ok && wrong.error.message).toBe('There is no build "b"; the file has "a".');
    const none = withBuild(demo, 'b');
    expect(!none.ok && none.error.message).toBe('There is no build "b"; the file has no builds.');
  });
});

describe('writeProject', () => {
  it('writes known keys in the order of the schema, one blade station a line, a newline at the end', () => {
    const shuffled = Object.fromEntries(Object.entries(demo).reverse()) as Project;
    const written = writeProject(shuffled);
    expect(written).toBe(writeProject(demo));
    expect(written).toMatch(/^\{\n {2}"schemaVersion": 1,\n/);
    expect(written.endsWith('}\n')).toBe(true);
    expect(written).toMatch(/\n {6}\{ "span_ratio": 0, "chord_mm": [^\n]* \},\n/);
    expect(JSON.parse(written)).toEqual(JSON.parse(JSON.stringify(demo)));
  });
  it('refuses a number JSON cannot hold, and says where', () => {
    expect(() => writeProject(setPath(demo, 'fan.blade.1.chord_mm', NaN))).toThrow(
      'writeProject cannot write fan.blade.1.chord_mm: NaN is not a finite number',
    );
  });
});
