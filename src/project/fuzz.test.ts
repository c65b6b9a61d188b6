import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readProject } from './read.ts';
import { writeProject } from './write.ts';

const text = readFileSync(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
  'utf8',
);
const { builds: _, schemaVersion: __, name: ___, note: ____, brief: _____, ...design } = JSON.parse(text);
const seedFile = {
  ...JSON.parse(text),
  builds: [
    {
      id: 'first',
      name: 'First',
      design,
      bench: [{ raw: [1, 2, { deep: 'x' }], rows: [{ scale_g: 12 }] }],
      myOwn: 'kept',
    },
  ],
  own: { nested: [1, [2, { three: null }]] },
};
const SEED = 20_261;

/** Every key path of a value with the value there, leaves only. */
function leaves(value: unknown, path = '$'): [string, unknown][] {
  if (typeof value !== 'object' || value === null) return [[path, value]];
  const inner = Object.entries(value).flatMap(([key, v]) => leaves(v, `${path}/${key}`));
  return inner.length ? inner : [[path, Array.isArray(value) ? '[]' : '{}']];
}

/** The groups and lists inside a value, to change one of them. */
function containers(value: unknown): Record<string, unknown>[] {
  if (typeof value !== 'object' || value === null) return [];
  return [value as Record<string, unknown>, ...Object.values(value).flatMap(containers)];
}

const odd = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    '',
    '76',
    [],
    {},
    0,
    -0,
    -1,
    1e308,
    -1e308,
    5e-324,
    1e15,
    0.5,
    [[[]]],
    '\u202e',
    'é\ud800',
    'toString',
  ),
  fc.jsonValue({ maxDepth: 3 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);
const oddKey = fc.oneof(
  fc.constantFrom(
    'constructor',
    'toString',
    'hasOwnProperty',
    '',
    '0',
    'ключ',
    'tipDiamter_mm',
    'id',
    '\u0000',
    '1e3',
  ),
  fc.string({ maxLength: 12, unit: 'grapheme' }),
);
type Change = (value: unknown) => void;
const place = fc.nat(400);
const pick = (value: unknown, at: number): [Record<string, unknown>, string] => {
  const all = containers(value);
  const group = all[at % all.length];
  const keys = Object.keys(group);
  return [group, keys[at % Math.max(1, keys.length)] ?? 'new'];
};
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.tuple(place, odd).map(([at, v]): Change => (root) => {
    const [group, key] = pick(root, at);
    group[key] = v;
  }),
  place.map((at): Change => (root) => {
    const [group, key] = pick(root, at);
    if (Array.isArray(group)) group.splice(Number(key), 1);
    else delete group[key];
  }),
  fc.tuple(place, oddKey, odd).map(([at, key, v]): Change => (root) => {
    const [group] = pick(root, at);
    if (Array.isArray(group)) group.push(v);
    else if (key !== '__proto__') group[key] = v;
  }),
  fc.tuple(place, oddKey).map(([at, to]): Change => (root) => {
    const [group, key] = pick(root, at);
    if (Array.isArray(group) || to === '__proto__') return;
    const value = group[key];
    delete group[key];
    group[to] = value;
  }),
);
const changedTree = fc.array(change, { minLength: 1, maxLength: 4 }).map((changes) => {
  const root = structuredClone(seedFile);
  for (const apply of changes) apply(root);
  return JSON.stringify(root, null, 1) ?? 'null';
});

const bytesOf = (s: string) => new TextEncoder().encode(s);
const changedBytes = fc.oneof(
  fc.tuple(fc.array(fc.tuple(fc.nat(), fc.nat(255)), { minLength: 1, maxLength: 4 })).map(([flips]) => {
    const bytes = bytesOf(text);
    for (const [at, value] of flips) bytes[at % bytes.length] = value;
    return bytes;
  }),
  fc.nat().map((at) => bytesOf(text).slice(0, at % text.length)),
  fc.tuple(fc.nat(), fc.nat(300)).map(([at, n]) => {
    const start = at % text.length;
    return bytesOf(text.slice(0, start) + text.slice(start, start + n) + text.slice(start));
  }),
  fc
    .tuple(
      fc.nat(),
      fc.constantFrom(
        '1e999',
        '{',
        '[[[[',
        '"',
        '\\u',
        ',,',
        '\ufeff',
        '"__proto__":{},',
        'NaN',
        '-',
        '1'.repeat(400),
        '\u2028',
      ),
    )
    .map(([at, piece]) => bytesOf(text.slice(0, at % text.length) + piece + text.slice(at % text.length))),
  fc.uint8Array({ maxLength: 200 }),
  fc.string({ maxLength: 200, unit: 'binary' }).map(bytesOf),
);

function check(input: string | Uint8Array): boolean {
  const result = readProject(input);
  if (!result.ok) {
    expect(result.errors.length).toBeGreaterThan(0);
    for (const { path, message } of result.errors) {
      expect(typeof path).toBe('string');
      expect(message).toMatch(/^\S[^]*[.?]$/u);
    }
    return false;
  }
  const written = writeProject(result.project);
  const again = readProject(written);
  if (!again.ok) throw new Error(`written text does not read back: ${JSON.stringify(again.errors)}`);
  expect(writeProject(again.project)).toBe(written);
  const raw = typeof input === 'string' ? input : new TextDecoder().decode(input);
  const kept = new Map(leaves(JSON.parse(written)));
  for (const [path, value] of leaves(JSON.parse(raw.replace(/^\ufeff/, '')))) {
    // An empty group may come back filled with what stands for its missing keys.
    if (value === '{}' && !kept.has(path))
      expect([...kept.keys()].some((k) => k.startsWith(`${path}/`))).toBe(true);
    else expect([path, kept.get(path)]).toEqual([path, value === 0 ? 0 : value]);
  }
  return true;
}

it(`2 500 files with values, keys and groups changed each give a project, kept whole, or located errors (seed ${SEED})`, () => {
  let read = 0;
  fc.assert(
    fc.property(changedTree, (input) => void (read += Number(check(input)))),
    { seed: SEED, numRuns: 2500 },
  );
  expect(read).toBeGreaterThan(250);
  expect(read).toBeLessThan(2250);
});

it(`2 500 files with bytes flipped, cut, doubled or put in each give a project, kept whole, or located errors (seed ${SEED})`, () => {
  let read = 0;
  fc.assert(
    fc.property(changedBytes, (input) => void (read += Number(check(input)))),
    { seed: SEED, numRuns: 2500 },
  );
  expect(read).toBeGreaterThan(50);
  expect(read).toBeLessThan(2450);
});
