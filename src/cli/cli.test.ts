import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fromHere, writeWhole } from './files.ts';
import { fileName } from './make.ts';
import { run } from './run.ts';

const main = fileURLToPath(new URL('main.ts', import.meta.url));
const loader = import.meta.resolve('tsx');
const nodeArgs = ['--import', loader, main];
const folder = mkdtempSync(join(tmpdir(), 'fanwright-cli-'));
const at = (name: string) => join(folder, name);
const demo = at('demo.fanwright.json');

/** The real program in a process of its own. */
function child(args: readonly string[], options: { cwd?: string; env?: NodeJS.ProcessEnv } = {}) {
  const done = spawnSync(process.execPath, [...nodeArgs, ...args], {
    cwd: folder,
    encoding: 'utf8',
    ...options,
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

/** The same in this process: quicker. */
async function here(...args: string[]) {
  let out = '';
  let err = '';
  const code = await run(args, { out: (t) => void (out += t), err: (t) => void (err += t) });
  return { code, out, err };
}

/** Code 2, nothing on standard output, one line with one sentence on standard error. */
function expectRefusal(result: { code: number | null; out: string; err: string }, sentence: string | RegExp) {
  expect(result.code).toBe(2);
  expect(result.out).toBe('');
  expect(result.err).toMatch(/^[^\n]+[.?]\n$/);
  if (typeof sentence === 'string') expect(result.err).toBe(sentence + '\n');
  else expect(result.err).toMatch(sentence);
}

const table =
  'radius_mm,chord_mm,angle_deg,thickness_ratio,camber_ratio\n10,12,35,0.1,0.03\n40,11,18,0.09,0.03\n63.5,6,10,0.09,0.03\n';

beforeAll(async () => {
  expect((await here('new', demo)).code).toBe(0);
  writeFileSync(at('rotor.csv'), table);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('as a program of its own', () => {
  it('leaves with 0 on a good run, words on standard output only, paths as seen from the working folder', () => {
    const { code, out, err } = child(['assess', 'demo.fanwright.json']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Greenhouse scout: /);
  });

  it('leaves with 2 on bad input, one sentence on standard error', () => {
    expectRefusal(
      child(['assess', 'nothing.json']),
      'nothing.json cannot be read: there is no such file or folder.',
    );
    expectRefusal(child(['assess']), "Missing required argument 'FILE'; see `fanwright assess --help`.");
  });

  it('reads from where the person stands when npm has moved elsewhere', () => {
    const env = {
      ...process.env,
      INIT_CWD: folder,
      npm_lifecycle_event: 'cli',
      npm_package_name: 'fanwright',
    };
    expect(child(['check', 'demo.fanwright.json'], { cwd: tmpdir(), env }).code).toBe(0);
    expect(fromHere('a', { INIT_CWD: '/elsewhere', npm_lifecycle_event: 'test' })).toBe(
      join(process.cwd(), 'a'),
    );
  });

  it('is quiet when its reader closes early', async () => {
    const process_ = spawn(process.execPath, [...nodeArgs, 'assess', demo, '--json'], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    process_.stdout.destroy();
    let err = '';
    process_.stderr.on('data', (part) => (err += part));
    const code = await new Promise((done) => process_.on('close', done));
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });

  it('leaves the file as it was, and nothing beside it, when a write breaks off half way', () => {
    mkdirSync(at('full'));
    writeFileSync(at('full/a.json'), 'precious');
    const script = `ulimit -f 1; exec "$0" "$@"`;
    const done = spawnSync(
      'bash',
      ['-c', script, process.execPath, ...nodeArgs, 'new', '--force', at('full/a.json')],
      { encoding: 'utf8', env: { ...process.env, TSX_DISABLE_CACHE: '1' } },
    );
    expect(readFileSync(at('full/a.json'), 'utf8')).toBe('precious');
    expect(done.status).toBe(2);
    expect(done.stderr).toMatch(/a\.json cannot be written: it would be larger than the system allows\.\n$/);
    expect(readdirSync(at('full'))).toEqual(['a.json']);
  });
});

describe('new', () => {
  it('copies an example and tells the next step', async () => {
    const { code, out } = await here('new', '--example', 'greenhouse-scout', at('n.json'));
    expect(code).toBe(0);
    expect(out).toBe(
      `Wrote ${at('n.json')}, a copy of the example greenhouse-scout.\nNext: fanwright assess ${at('n.json')}\n`,
    );
    expect(readFileSync(at('n.json'), 'utf8')).toBe(readFileSync(demo, 'utf8'));
  });

  it('does not write over a file without --force', async () => {
    writeFileSync(at('mine.json'), 'mine');
    expectRefusal(
      await here('new', at('mine.json')),
      /is already there; choose another name, or add --force to write over it\.\n$/,
    );
    expect(readFileSync(at('mine.json'), 'utf8')).toBe('mine');
    expect((await here('new', '--force', at('mine.json'))).code).toBe(0);
    expect(readFileSync(at('mine.json'), 'utf8')).not.toBe('mine');
  });

  it('names the examples there are, and writes nothing for a wrong one', async () => {
    expectRefusal(
      await here('new', '--example', 'x', at('x.json')),
      'There is no example "x"; there are "greenhouse-scout", "greenhouse-scout-heavy".',
    );
    expect(existsSync(at('x.json'))).toBe(false);
  });
});

describe('check', () => {
  it('passes the demo, tells of unknown keys, and keeps to code 0', async () => {
    writeFileSync(
      at('note.json'),
      readFileSync(demo, 'utf8').replace('"tailCone"', '"tailcone": true,\n"tailCone"'),
    );
    const { code, out } = await here('check', at('note.json'));
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'A note: - fan.duct.tailcone is not a key this program knows; it is kept as it is. Did you mean tailCone?',
    );
  });

  it('lists every error on standard output and the first on standard error', async () => {
    writeFileSync(
      at('bad.json'),
      readFileSync(demo, 'utf8')
        .replace(/"tipDiameter_mm": [\d.]+/, '"tipDiameter_mm": -3')
        .replace(/"cells": \d+/, '"cells": 3.5'),
    );
    const { code, out, err } = await here('check', at('bad.json'));
    expect(code).toBe(2);
    expect(out).toBe(
      'The file cannot be read:\n  - battery.cells is 3.5; it must be a whole number from 1 to 14.\n  - fan.tipDiameter_mm is -3; it must be 10 to 1500 mm.\n',
    );
    expect(err).toBe(
      `${at('bad.json')}: battery.cells is 3.5; it must be a whole number from 1 to 14 (and 1 more; \`fanwright check\` lists them).\n`,
    );
    const json = JSON.parse((await here('check', at('bad.json'), '--json')).out);
    expect(json.ok).toBe(false);
    expect(json.errors.map((e: { path: string }) => e.path)).toEqual(['battery.cells', 'fan.tipDiameter_mm']);
  });

  it('tells of dimensions that do not fit', async () => {
    writeFileSync(
      at('hub.json'),
      readFileSync(demo, 'utf8').replace(/"hubDiameter_mm": [\d.]+/, '"hubDiameter_mm": 200'),
    );
    const { code, out, err } = await here('check', at('hub.json'));
    expect(code).toBe(2);
    expect(out).toContain('The fan cannot be built as drawn:');
    expect(err).toMatch(/hub\.json: fan\.hubDiameter_mm: The hub is 200 mm across[^\n]*\n$/);
  });

  it('lists every key with unit and range', async () => {
    const { out } = await here('check', '--keys');
    expect(out).toMatch(/^fan\.tipDiameter_mm +10 to 1500 mm\. Diameter over the blade tips\.$/m);
  });
});

describe('assess', () => {
  const points = [
    'rpm',
    'thrust_N',
    'rotorThrust_N',
    'torque_Nm',
    'shaftPower_W',
    'electricalPower_W',
    'figureOfMerit',
    'axialVelocity_mps',
    'exitVelocity_mps',
    'ledgerError_W',
  ];

  it('gives the keys of the contract as finite numbers, and a ledger that closes', async () => {
    const { code, out } = await here('assess', demo, '--throttle', '0.6', '--json');
    expect(code).toBe(0);
    const { craft, fan } = JSON.parse(out);
    for (const key of ['mass_g', 'hoverThrottle', 'hover_min', 'thrustToWeight'])
      expect(craft[key], key).toBeGreaterThan(0);
    expect(craft.lifts).toBe(true);
    for (const at of ['hover', 'full', 'atThrottle']) {
      for (const key of points) expect(Number.isFinite(fan[at][key]), `${at}.${key}`).toBe(true);
      const spent = Object.values<number>(fan[at].losses_W).reduce((a, b) => a + b, 0);
      expect(fan[at].shaftPower_W - spent).toBeCloseTo(fan[at].ledgerError_W, 9);
      expect(Math.abs(fan[at].ledgerError_W)).toBeLessThan(1e-6 * fan[at].shaftPower_W);
    }
    expect(fan.atThrottle.throttle).toBeCloseTo(0.6, 8);
    expect(fan.hover.thrust_N * 4).toBeCloseTo((craft.mass_g / 1000) * 9.80665, 4);
    expect(JSON.parse((await here('assess', demo, '--json')).out).fan.atThrottle).toBeUndefined();
  });

  it('answers for a craft that does not lift with code 0', async () => {
    const { code, out, err } = await here('assess', demo, '--set', 'brief.payload_g=5000', '--json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(JSON.parse(out).craft.lifts).toBe(false);
    expect((await here('assess', demo, '--set', 'brief.payload_g=5000')).code).toBe(0);
  });

  it('sets several values, in a row or one by one, for this run alone', async () => {
    const before = readFileSync(demo, 'utf8');
    const apart = await here(
      'assess',
      demo,
      '--json',
      '--set',
      'brief.payload_g=90',
      '--set',
      'fan.bladeCount=7',
    );
    const row = await here('assess', '--json', '--set', 'brief.payload_g=90', 'fan.bladeCount=7', demo);
    const plain = await here('assess', demo, '--json');
    expect(apart.code).toBe(0);
    expect(row.out).toBe(apart.out);
    expect(JSON.parse(row.out).craft.mass_g).toBeGreaterThan(JSON.parse(plain.out).craft.mass_g + 40);
    expect(readFileSync(demo, 'utf8')).toBe(before);
  });

  it('refuses what it cannot set or find', async () => {
    expectRefusal(
      await here('assess', demo, '--set', 'fan.tipDiameter_mm=-3'),
      '--set: fan.tipDiameter_mm is -3; it must be 10 to 1500 mm.',
    );
    expectRefusal(
      await here('assess', demo, '--set', 'fan.tipDiamter_mm=80'),
      '--set: fan.tipDiamter_mm is not a place in a project file; did you mean fan.tipDiameter_mm?',
    );
    expectRefusal(
      await here('assess', demo, '--set', 'fan'),
      '--set fan lacks a value; write path=value, as in fan.tipDiameter_mm=80.',
    );
    expectRefusal(
      await here('assess', demo, '--throttle', '2'),
      '--throttle is 2; it must be a number from 0 to 1.',
    );
    expectRefusal(
      await here('assess', demo, '--build', 'b1'),
      `${demo}: There is no build "b1"; the file has no builds.`,
    );
    expectRefusal(
      await here('assess', demo, '--jsn'),
      "Unknown option '--jsn' (Did you mean --json?); see `fanwright assess --help`.",
    );
    expectRefusal(
      await here('asess', demo),
      "Unknown command 'asess' (Did you mean assess?); see `fanwright --help`.",
    );
    expectRefusal(await here('assess', folder), `${folder} is a folder; give the file in it.`);
    writeFileSync(at('newer.json'), '{"schemaVersion": 3}');
    expectRefusal(
      await here('assess', at('newer.json')),
      `${at('newer.json')}: The file was written by a newer Fanwright (version 3; this one reads up to 1); the file was not touched.`,
    );
  });

  it('assesses one of the builds', async () => {
    const raw = JSON.parse(readFileSync(demo, 'utf8'));
    const { craft, motor, controller, battery, fan, printer, material } = raw;
    raw.builds = [
      {
        id: 'b1',
        name: 'First',
        design: { craft, motor, controller, battery, fan: { ...fan, bladeCount: 3 }, printer, material },
      },
    ];
    writeFileSync(at('built.json'), JSON.stringify(raw));
    const build = await here('assess', at('built.json'), '--build', 'b1', '--json');
    const same = await here('assess', demo, '--set', 'fan.bladeCount=3', '--json');
    expect(build.out).toBe(same.out);
    expectRefusal(
      await here('assess', at('built.json'), '--build', 'b2'),
      /There is no build "b2"; the file has "b1"\.\n$/,
    );
  });
});

describe('fan', () => {
  it('runs the fan of a project as assess does, at hover speed unless told otherwise', async () => {
    const { fan } = JSON.parse((await here('assess', demo, '--json')).out);
    const single = JSON.parse((await here('fan', demo, '--json')).out);
    expect(single.rpm).toBe(fan.hover.rpm);
    expect(single.kind).toBe('ducted');
    for (const key of ['thrust_N', 'torque_Nm', 'rotorThrust_N'])
      expect(single[key]).toBeCloseTo(fan.hover[key], 12);
    expect(single.power_W).toBeCloseTo(fan.hover.shaftPower_W, 12);
    const open = JSON.parse((await here('fan', demo, '--open', '--rpm', '20000', '--json')).out);
    expect(open.kind).toBe('open');
    expect(open.thrust_N).toBe(open.rotorThrust_N);
  });

  it('runs a rotor from a table; its coefficients follow their definitions', async () => {
    const { code, out } = await here(
      'fan',
      at('rotor.csv'),
      '--rpm',
      '6000',
      '--blades',
      '3',
      '--density',
      '1.2',
      '--json',
    );
    expect(code).toBe(0);
    const r = JSON.parse(out);
    const [n, d, area, tip] = [100, 0.127, Math.PI * 0.0635 ** 2, 200 * Math.PI * 0.0635];
    expect(r.thrust_N).toBeGreaterThan(0);
    expect(r.power_W).toBeCloseTo(r.torque_Nm * 200 * Math.PI, 12);
    expect(r.ct).toBeCloseTo(r.thrust_N / (1.2 * n ** 2 * d ** 4), 12);
    expect(r.cp).toBeCloseTo(r.power_W / (1.2 * n ** 3 * d ** 5), 12);
    expect(r.ctRotor).toBeCloseTo(r.thrust_N / (1.2 * area * tip ** 2), 12);
    expect(r.cpRotor).toBeCloseTo(r.power_W / (1.2 * area * tip ** 3), 12);
    for (const [key, list] of Object.entries<number[]>(r.annuli)) {
      expect(list.length, key).toBe(r.annuli.radius_mm.length);
      expect(list.every(Number.isFinite), key).toBe(true);
    }
  });

  it('takes every option into account', async () => {
    const thrust = async (...more: string[]) =>
      JSON.parse((await here('fan', at('bare.csv'), '--rpm', '6000', '--json', ...more)).out).thrust_N;
    writeFileSync(
      at('bare.csv'),
      '# no section\nradius_mm;chord_mm;angle_deg\n63.5;6;10\n10;12;35\n40;11;18\n',
    );
    const plain = await thrust();
    for (const more of [
      ['--blades', '4'],
      ['--section', 'arc-plate'],
      ['--section', '0012'],
      ['--density', '1'],
      ['--viscosity', '3e-5'],
      ['--axial-speed', '3'],
    ])
      expect(await thrust(...more), more.join(' ')).not.toBe(plain);
    expect(await thrust('--open')).toBe(plain);
  });

  it('answers for a fan at rest without a number that is none', async () => {
    const r = JSON.parse((await here('fan', at('rotor.csv'), '--rpm', '0', '--json')).out);
    expect([r.thrust_N, r.power_W, r.ct, r.cp, r.ctRotor, r.cpRotor]).toEqual([0, 0, null, null, null, null]);
    expect((await here('fan', at('rotor.csv'), '--rpm', '0')).code).toBe(0);
  });

  it('refuses in one sentence', async () => {
    expectRefusal(
      await here('fan', at('rotor.csv')),
      `${at('rotor.csv')} is a table, so the speed is needed: add --rpm N.`,
    );
    expectRefusal(
      await here('fan', at('rotor.csv'), '--rpm', '-1'),
      '--rpm is -1; it must be a number from 0 to 1000000 rpm.',
    );
    expectRefusal(
      await here('fan', at('rotor.csv'), '--rpm', 'abc'),
      '--rpm is "abc"; it must be a number from 0 to 1000000 rpm.',
    );
    expectRefusal(
      await here('fan', at('rotor.csv'), '--rpm', '1', '--blades', '2.5'),
      '--blades is 2.5; it must be a whole number from 1 to 20.',
    );
    expectRefusal(
      await here('fan', at('rotor.csv'), '--rpm', '1', '--section', 'nice'),
      /^--section nice is not known; it may be flat-plate /,
    );
    expectRefusal(
      await here('fan', at('rotor.csv'), '--rpm', '1', '--section', 'flat-plate'),
      /gives a camber_ratio, which a flat-plate section has none of/,
    );
    expectRefusal(
      await here('fan', at('rotor.csv'), '--rpm', '1', '--set', 'fan.bladeCount=2'),
      /is a table; --build and --set are for project files\.\n$/,
    );
    writeFileSync(at('odd.csv'), 'radius_mm,chord_mm,angle_deg\n10,8,40\n20,x,3\n');
    expectRefusal(
      await here('fan', at('odd.csv'), '--rpm', '1'),
      `${at('odd.csv')} line 3: chord_mm is "x"; it must be a number from 0 to 10000 mm.`,
    );
  });
});

describe('make', () => {
  it('writes one STL a part into a folder it makes, and lists them', async () => {
    const { code, out } = await here('make', demo, '--out', at('parts/deep'));
    expect(code).toBe(0);
    const files = readdirSync(at('parts/deep')).sort();
    expect(files).toEqual([
      'greenhouse-scout-duct.stl',
      'greenhouse-scout-rotor-left.stl',
      'greenhouse-scout-rotor-right.stl',
    ]);
    for (const file of files) {
      const bytes = readFileSync(at(`parts/deep/${file}`));
      expect(bytes.length).toBe(84 + 50 * bytes.readUInt32LE(80));
      expect(out).toContain(file);
    }
    expect(out).toMatch(/duct +4 × +[\d.]+ cm³ +[\d.]+ g/);
  });

  it('writes one 3MF a bed, and says the same as JSON', async () => {
    const { code, out } = await here('make', demo, '--out', at('parts3'), '--format', '3mf', '--json');
    expect(code).toBe(0);
    const made = JSON.parse(out);
    expect(made.files).toEqual([1, 2].map((bed) => at(`parts3/greenhouse-scout-bed-${bed}.3mf`)));
    for (const file of made.files) expect(readFileSync(file).subarray(0, 2).toString()).toBe('PK');
    expect(made.parts.reduce((sum: number, p: { quantity: number }) => sum + p.quantity, 0)).toBe(8);
    for (const part of made.parts) expect(part.mass_g).toBeGreaterThan(0);
  });

  it('writes nothing, not even the folder, for a fan that cannot be built', async () => {
    expectRefusal(
      await here('make', demo, '--out', at('none'), '--set', 'fan.hubDiameter_mm=200'),
      /fan\.hubDiameter_mm: The hub is 200 mm across/,
    );
    expect(existsSync(at('none'))).toBe(false);
    expectRefusal(
      await here('make', demo),
      "Required option '--out <DIR>' not specified; see `fanwright make --help`.",
    );
    expectRefusal(
      await here('make', demo, '--out', at('none'), '--format', 'obj'),
      /Allowed choices are stl, 3mf/,
    );
    expectRefusal(
      await here('make', demo, '--out', demo),
      /demo\.fanwright\.json cannot be made: something else has that name\.\n$/,
    );
  });

  it('names files so that every system takes them', () => {
    expect(fileName('Greenhouse scout')).toBe('greenhouse-scout');
    expect(fileName('../..\\Ärger: 100 %?')).toBe('arger-100');
    expect(fileName('///')).toBe('fan');
    expect(fileName('x'.repeat(300))).toHaveLength(60);
  });
});

describe('writing and faults', () => {
  it('keeps permissions, follows links, and leaves no half-written file when the place will not have it', () => {
    writeFileSync(at('kept'), 'old');
    chmodSync(at('kept'), 0o640);
    symlinkSync(at('kept'), at('link'));
    writeWhole(at('link'), 'new');
    expect(readFileSync(at('kept'), 'utf8')).toBe('new');
    expect(statSync(at('kept')).mode & 0o777).toBe(0o640);
    mkdirSync(at('taken/x'), { recursive: true });
    expect(() => writeWhole(at('taken'), 'text')).toThrow(/taken cannot be written: it is a folder\.$/);
    expect(() => writeWhole(at('no/such/folder'), 'text')).toThrow(
      /cannot be written: there is no such file or folder\.$/,
    );
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('says sorry in one line, without a stack, when the fault is ours; code 1', async () => {
    let err = '';
    const code = await run(['assess', demo], {
      out: () => {
        throw new TypeError('broken\n    inside');
      },
      err: (text) => void (err += text),
    });
    expect(code).toBe(1);
    expect(err).toMatch(
      /^Sorry, this is a fault in Fanwright, not in your input\. Please report it [^\n]*: broken inside\.\n$/,
    );
  });
});

describe('help', () => {
  for (const args of [
    ['--help'],
    ['new', '--help'],
    ['check', '--help'],
    ['assess', '--help'],
    ['design', '--help'],
    ['make', '--help'],
    ['fan', '--help'],
    ['motor', '--help'],
    ['size', '--help'],
    ['craft', '--help'],
    ['buy', '--help'],
    ['sound', '--help'],
    ['layers', '--help'],
    ['printer', '--help'],
    ['strength', '--help'],
    ['balance', '--help'],
  ])
    it(`of \`fanwright ${args.join(' ')}\` is complete, on standard output, code 0`, async () => {
      const { code, out, err } = await here(...args);
      expect({ code, err }).toEqual({ code: 0, err: '' });
      expect(out).toMatch(/Examples?[:,]/);
      expect(out.endsWith('\n')).toBe(true);
      for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(100);
      await expect(out).toMatchFileSnapshot(`help/${args.length > 1 ? args[0] : 'fanwright'}.txt`);
    });

  it('is what one sees without a command; the version is that of the package', async () => {
    expect((await here()).out).toBe((await here('--help')).out);
    expect((await here('--version')).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
