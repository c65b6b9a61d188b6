import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { example, here, workshop } from '../../tests/program.ts';

const demo = example('greenhouse-scout');
const { at, child, folder, leave } = workshop('air');
afterAll(leave);

const json = async (...args: string[]) => JSON.parse((await here(...args, '--json')).out);

// Invented, in the manner of a printed table.
writeFileSync(
  at('rotor.csv'),
  'radius_mm,chord_mm,angle_deg\n9.5,11.4,33.1\n19,14,29.5\n31.75,14.3,22.4\n44.5,12.2,17.3\n63.5,3.2,11.6\n',
);
const polar = (cl: number, cd: number) =>
  ['Re;alpha;Cl;Cd', ...[-6, 0, 6, 12].map((deg) => `20000;${deg};${cl + 0.1 * deg};${cd}`)].join('\n');
writeFileSync(at('tunnel.csv'), polar(0.3, 0.03));
writeFileSync(at('draggy.csv'), polar(0.3, 0.06));

describe('fan --section FILE.csv', () => {
  it('runs a rotor on a measured polar and says what it covers', () => {
    const { code, out, err } = child('fan', 'rotor.csv', '--rpm', '6000', '--section', 'tunnel.csv');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const plain = out.replace(/\s+/g, ' ');
    expect(plain).toContain(
      'Section measured in tunnel.csv: Re 20 000, −6 to 12°; past its angles the model of a four-digit section, 10 % thick, 3 % camber.',
    );
    expect(plain).toMatch(/(All 24|\d+ of 24) rings of the blade work within its angles\./);
    expect(plain).toMatch(/The blade meets Re \d.* the file has 20 000; below, its lowest curve is held/);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('takes lift and drag from it: on the polar within its angles, twice the drag more torque', async () => {
    const of = (file: string) => json('fan', at('rotor.csv'), '--rpm', '6000', '--section', at(file));
    const [thin, draggy] = [await of('tunnel.csv'), await of('draggy.csv')];
    const { angleOfAttack_deg, liftCoefficient, dragCoefficient } = thin.annuli;
    let within = 0;
    angleOfAttack_deg.forEach((alpha: number, i: number) => {
      if (alpha < -6 || alpha > 12) return;
      within++;
      expect(liftCoefficient[i]).toBeCloseTo(0.3 + 0.1 * alpha, 9);
      expect(dragCoefficient[i]).toBeCloseTo(0.03, 9);
    });
    expect(within).toBeGreaterThan(12);
    expect(draggy.torque_Nm).toBeGreaterThan(1.1 * thin.torque_Nm);
  });

  it('serves a project too, past its own polar', async () => {
    const measured = await json('fan', demo, '--rpm', '15000', '--section', at('tunnel.csv'));
    const own = await json('fan', demo, '--rpm', '15000');
    expect(measured.torque_Nm).not.toBe(own.torque_Nm);
    expect(measured.assumed[0]).toContain("past its angles the model of the project's own section.");
    const raw = JSON.parse(readFileSync(demo, 'utf8'));
    raw.fan.section.polar = [-6, 0, 6].map((alpha_deg) => ({
      re: 20_000,
      alpha_deg,
      cl: 0.3 + 0.1 * alpha_deg,
      cd: 0.3,
    }));
    writeFileSync(at('polar.json'), JSON.stringify(raw));
    const named = ['--rpm', '15000', '--section', '4412'];
    expect((await json('fan', at('polar.json'), '--rpm', '15000')).power_W).toBeGreaterThan(
      own.power_W * 1.5,
    );
    expect(await json('fan', at('polar.json'), ...named)).toEqual(await json('fan', demo, ...named));
  });

  it('four digits are a section, leading zeros kept', async () => {
    const plain = await json('fan', at('rotor.csv'), '--rpm', '6000', '--section', '0012');
    expect(plain.assumed.join(' ')).toMatch(/Section 0012: 12\s% thick, 0\s% camber\./);
    const cambered = await json('fan', at('rotor.csv'), '--rpm', '6000', '--section', '4412');
    expect(cambered.thrust_N).toBeGreaterThan(plain.thrust_N);
    const [a, b] = [
      await json('fan', demo, '--section', '0012', '--rpm', '15000'),
      await json('fan', demo, '--rpm', '15000'),
    ];
    expect(a.thrust_N).toBeLessThan(b.thrust_N);
  });

  it.each([
    ['', 'The polar table is empty; it needs columns Re, alpha (degrees), Cl and Cd.'],
    ['Re,alpha,Cl\n1,2,3', 'Line 1 of the polar table has no column for cd; it needs Re, alpha, Cl and Cd.'],
    ['Re,alpha,Cl,Cd\n50000,2,x,0.03', 'Line 2 of the polar table has no number for cl.'],
    [
      'Re,alpha,Cl,Cd\n50000,2,0.5,0.03',
      'A measured section needs at least three angles of attack at one Reynolds number.',
    ],
    ['Re,alpha,Cl,Cd\n50000,2,50,0.03', 'Cl is 50 in one of its points; it must be from -5 to 5.'],
  ])('refuses %j in one sentence', async (text, sentence) => {
    writeFileSync(at('bad.csv'), text);
    expect(await here('fan', at('rotor.csv'), '--rpm', '6000', '--section', at('bad.csv'))).toEqual({
      code: 2,
      out: '',
      err: `${at('bad.csv')}: ${sentence}\n`,
    });
  });

  it('refuses what is no text and what is not there', async () => {
    writeFileSync(at('bytes.csv'), Buffer.from([0x52, 0x65, 0xff, 0xfe]));
    const refusal = async (file: string) =>
      (await here('fan', at('rotor.csv'), '--rpm', '1', '--section', at(file))).err;
    expect(await refusal('bytes.csv')).toMatch(
      /is not UTF-8 text \(first odd byte: line 1\); a polar table is plain text\.\n$/,
    );
    expect(await refusal('none.csv')).toMatch(
      /none\.csv cannot be read: there is no such file or folder\.\n$/,
    );
  });
});

describe('fan --roughness', () => {
  it('costs power, for a table and for a project', async () => {
    for (const args of [
      ['fan', at('rotor.csv'), '--rpm', '20000'],
      ['fan', demo, '--rpm', '20000'],
    ]) {
      const [smooth, rough] = [await json(...args), await json(...args, '--roughness', '0.4')];
      expect(rough.power_W).toBeGreaterThan(smooth.power_W * 1.01);
      expect(await json(...args, '--roughness', '0')).toEqual(smooth);
    }
    expect((await here('fan', demo, '--roughness', '3')).err).toBe(
      '--roughness is 3; it must be a number from 0 to 1 mm.\n',
    );
  });
});

describe('fan --map FILE.csv', () => {
  it('writes the fan itself at every point', async () => {
    const { code, out, err } = child('fan', 'rotor.csv', '--rpm', '6000', '--map', 'map.csv');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/\nWrote map\.csv: 99 points from 600 to 6000 rpm, /);
    const [heading, ...lines] = readFileSync(at('map.csv'), 'utf8').trimEnd().split('\n');
    expect(heading).toBe('rpm,axial_mps,thrust_N,torque_Nm,power_W,massFlow_kgps');
    expect(lines).toHaveLength(99);
    for (const line of [lines[2], lines[49], lines[98]]) {
      const [rpm, axial, thrust, torque, power] = line.split(',').map(Number);
      const fan = await json('fan', at('rotor.csv'), '--rpm', String(rpm), '--axial-speed', String(axial));
      expect(thrust / fan.thrust_N).toBeCloseTo(1, 4);
      expect(torque / fan.torque_Nm).toBeCloseTo(1, 4);
      expect(power / fan.power_W).toBeCloseTo(1, 4);
    }
  });

  it('of a project reaches the highest speed of its motor, or --rpm', async () => {
    const written = await json('fan', demo, '--map', at('demo.csv'));
    expect(written.map).toEqual({ file: at('demo.csv'), points: 99 });
    const last = (name: string) =>
      Number(readFileSync(at(name), 'utf8').trimEnd().split('\n').at(-1)!.split(',')[0]);
    expect(last('demo.csv')).toBeGreaterThan(20_000);
    await here('fan', demo, '--rpm', '9000', '--map', at('slow.csv'));
    expect(last('slow.csv')).toBeCloseTo(9000, 2);
  });

  it('writes over nothing unless told, never over what it reads, and nothing after a refusal', async () => {
    writeFileSync(at('old.csv'), 'precious');
    expect((await here('fan', demo, '--map', at('old.csv'))).err).toBe(
      `${at('old.csv')} is already there; choose another name, or add --force to write over it.\n`,
    );
    expect(readFileSync(at('old.csv'), 'utf8')).toBe('precious');
    expect((await here('fan', demo, '--map', at('old.csv'), '--force')).code).toBe(0);
    expect(readFileSync(at('old.csv'), 'utf8')).toMatch(/^rpm,/);
    expect((await here('fan', demo, '--map', folder)).err).toBe(
      `${folder} is a folder; give the name of a file in it.\n`,
    );
    expect((await here('fan', demo, '--map', '')).err).toBe('The name of the file to write is empty.\n');
    const before = readFileSync(at('rotor.csv'), 'utf8');
    const over = await here('fan', at('rotor.csv'), '--rpm', '6000', '--map', at('rotor.csv'), '--force');
    expect(over).toMatchObject({
      code: 2,
      err: `${at('rotor.csv')} is the file this run reads; choose another name for what it writes.\n`,
    });
    expect(readFileSync(at('rotor.csv'), 'utf8')).toBe(before);
    const still = await here('fan', at('rotor.csv'), '--rpm', '0', '--map', at('never.csv'));
    expect(still).toMatchObject({
      code: 2,
      out: '',
      err: '--map reaches up to the speed of the fan, so that must be above 0 rpm.\n',
    });
    await here('fan', at('rotor.csv'), '--rpm', '1', '--section', 'nice', '--map', at('never.csv'));
    expect(existsSync(at('never.csv'))).toBe(false);
  });
});

describe('loading limits of fan', () => {
  it('stand in the text and in the JSON, and are none for a light blade', async () => {
    writeFileSync(at('steep.csv'), 'radius_mm,chord_mm,angle_deg\n10,14,55\n40,14,45\n60,10,35\n');
    const args = ['fan', at('steep.csv'), '--rpm', '9000', '--blades', '6'];
    const { limits } = await json(...args);
    expect(limits.map((l: { kind: string }) => l.kind)).toContain('stall');
    for (const limit of limits) {
      expect(limit.radius_mm).toBeGreaterThanOrEqual(10);
      expect(limit.radius_mm).toBeLessThanOrEqual(60);
      expect(limit.span_ratio).toBeCloseTo((limit.radius_mm - 10) / 50, 9);
      expect(limit.spanPast_ratio).toBeGreaterThan(0);
    }
    const { out } = await here(...args);
    expect(out).toMatch(/\nTo mind\n {2}- The blades /);
    expect((await json('fan', at('rotor.csv'), '--rpm', '0')).limits).toEqual([]);
    const { limits: none } = await json('fan', at('rotor.csv'), '--rpm', '6000');
    expect(none).toEqual([]);
    expect((await here('fan', at('rotor.csv'), '--rpm', '6000')).out).not.toContain('To mind');
  });
});

describe('assess --air-entry', () => {
  it('tells how the air enters, and feeds the inflow to every figure', () => {
    const { code, out, err } = child('assess', demo, '--air-entry');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const plain = out.replace(/\s+/g, ' ');
    expect(plain).toMatch(
      /How the air enters - The air passes the rotor at [\d.]+ m\/s by the hub and [\d.]+ m\/s by the wall\./,
    );
    expect(plain).toMatch(/- The air (stays|lets go)/);
    expect(plain).toMatch(
      /Open against ducted, in hover With its duct this rotor gives \d+ % (more|less) thrust/,
    );
    const fed = JSON.parse(child('assess', demo, '--air-entry', '--json').out);
    const even = JSON.parse(child('assess', demo, '--json').out);
    expect(even).not.toHaveProperty('airEntry');
    expect(fed.airEntry).toMatchObject({ ok: true });
    expect(fed.airEntry.sentences).toHaveLength(5);
    expect(fed.airEntry).not.toHaveProperty('profile');
    const { thrust } = fed.airEntry.withInflow;
    expect(fed.fan.hover.rpm).not.toBe(even.fan.hover.rpm);
    // Thrust goes with the square of speed: what the inflow takes, the speed makes up for.
    expect(fed.fan.hover.rpm / even.fan.hover.rpm).toBeCloseTo(thrust ** -0.5, 3);
  });

  it('does not change a thing without the flag, and says why where there is nothing to enter', async () => {
    const plain = await here('assess', demo);
    expect(plain.out).not.toContain('How the air enters');
    const open = await here('assess', demo, '--air-entry', '--set', 'fan.kind=open');
    expect(open.code).toBe(0);
    expect(open.out).toContain('\nHow the air enters\n  An open rotor has no duct for the air to enter.\n');
    expect((await json('assess', demo, '--air-entry', '--set', 'fan.kind=open')).airEntry).toEqual({
      ok: false,
      why: 'An open rotor has no duct for the air to enter.',
    });
  });

  it('answers for the craft that does not lift', async () => {
    const { code, out } = await here('assess', example('greenhouse-scout-heavy'), '--air-entry');
    expect(code).toBe(0);
    expect(out).toContain('\nHow the air enters\n  - The air passes');
  });

  it('lists the limits of the throttle asked for', async () => {
    const steep = ['0', '1', '2', '3'].flatMap((i) => ['--set', `fan.blade.${i}.angle_deg=60`]);
    const { out } = await here('assess', demo, '--throttle', '0.4', ...steep);
    expect(out.replace(/\s+/g, ' ')).toMatch(/- Mind: At 40 %: The blades /);
  });
});
