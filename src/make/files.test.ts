import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, unzlibSync, zipSync } from 'fflate';
import { DOMParser } from 'linkedom';
import type { BufferGeometry, Mesh as ThreeMesh } from 'three';
import { ThreeMFLoader } from 'three/addons/loaders/3MFLoader.js';
import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { projectSchema } from '../project/schema.ts';
import { loadKernel } from './kernel.ts';
import { make, type Made } from './make.ts';
import { writeStl } from './stl.ts';
import { layOut } from './layout.ts';
import { craftPlaces } from './places.ts';
import { checkThreeMf } from '../../tests/threemf-rules.ts';
import { escapeXml, threeMfFiles, writeThreeMf } from './threemf.ts';

const demo = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);
// Four fans and one kind of duct whatever the demo is tuned to.
const project = {
  ...demo,
  name: 'Scout <no. 2> & "friends"',
  craft: { ...demo.craft, fanCount: 4 },
  fan: {
    ...demo.fan,
    duct: { ...demo.fan.duct, tailCone: false },
    stator: { ...demo.fan.stator, curved: false },
  },
};

/** On a bed that takes all of it, and on the demo's own, which does not. */
let made: Made;
let small: Made;
let folder: string;
beforeAll(async () => {
  small = await make(project, { kernel: await loadKernel() });
  made = { ...small, bed_mm: [400, 400] };
  folder = mkdtempSync(join(tmpdir(), 'fanwright-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Volume of a triangle soup or indexed geometry as another reader holds it [mm3]. */
function volumeOf(geometry: BufferGeometry): number {
  const p = geometry.getAttribute('position');
  const index = geometry.getIndex();
  const count = index ? index.count : p.count;
  const corner = (i: number) => {
    const k = index ? index.getX(i) : i;
    return [p.getX(k), p.getY(k), p.getZ(k)];
  };
  let sum = 0;
  for (let i = 0; i < count; i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    sum +=
      a[0] * (b[1] * c[2] - b[2] * c[1]) +
      a[1] * (b[2] * c[0] - b[0] * c[2]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return sum / 6;
}

const has = (program: string, ...args: string[]) => spawnSync(program, args).status === 0;
const admesh = has('admesh', '--version');
const savitar = has('/usr/bin/python3', '-c', 'import Savitar');

describe('STL', () => {
  test('the bytes: header, count, fifty bytes a triangle', () => {
    const bytes = writeStl(made.parts[0], 'rotor – right');
    expect(bytes.length).toBe(84 + 50 * (made.parts[0].indices.length / 3));
    expect(new TextDecoder('ascii').decode(bytes.subarray(0, 80)).replaceAll('\0', '')).toBe(
      'Fanwright, rotor ? right, millimetres',
    );
  });

  test('a name longer than the header is cut', () => {
    expect(writeStl(made.parts[0], 'x'.repeat(200)).length).toBe(writeStl(made.parts[0], 'x').length);
  });

  test('three reads it back with the same volume', () => {
    for (const part of made.parts) {
      const bytes = writeStl(part, part.name);
      const geometry = new STLLoader().parse(bytes.buffer as ArrayBuffer);
      expect(geometry.getAttribute('position').count).toBe(part.indices.length);
      expect(Math.abs(volumeOf(geometry) / (part.volume_m3 * 1e9) - 1)).toBeLessThan(1e-6);
    }
  });

  test.skipIf(!admesh)('admesh finds nothing to repair', () => {
    for (const part of made.parts) {
      const file = join(folder, `${part.id}.stl`);
      writeFileSync(file, writeStl(part, part.name));
      const said = execFileSync('admesh', [file], { encoding: 'utf8' });
      const figure = (label: string) => Number(new RegExp(`${label}\\s*:\\s*([-\\d.]+)`).exec(said)?.[1]);
      expect(figure('Volume') / (part.volume_m3 * 1e9)).toBeCloseTo(1, 5);
      for (const label of [
        'Total disconnected facets',
        'Degenerate facets',
        'Edges fixed',
        'Facets removed',
        'Facets added',
        'Facets reversed',
        'Backwards edges',
        'Normals fixed',
      ])
        expect([label, figure(label)]).toEqual([label, 0]);
      expect(figure('Number of parts')).toBe(1);
    }
  });
});

describe('3MF', () => {
  test('the package holds what the specification asks, names escaped, nothing of a vendor', () => {
    const files = unzipSync(writeThreeMf(made));
    expect(Object.keys(files)).toEqual([
      '[Content_Types].xml',
      '_rels/.rels',
      '3D/3dmodel.model',
      'Metadata/thumbnail.png',
    ]);
    const model = strFromU8(files['3D/3dmodel.model']);
    expect(model).toContain('unit="millimeter"');
    expect(model).toContain(
      '<metadata name="Title">Scout &lt;no. 2&gt; &amp; &quot;friends&quot;</metadata>',
    );
    expect([...model.matchAll(/<metadata name="([^"]*)"/g)].map((m) => m[1])).toEqual([
      'Title',
      'Application',
    ]);
    expect([...model.matchAll(/xmlns(:\w+)?=/g)]).toHaveLength(1);
    expect([...model.matchAll(/<object [^>]*name="([^"]*)"/g)].map((m) => m[1])).toEqual([
      'rotor, right-hand',
      'rotor, left-hand',
      'duct',
    ]);
    expect([...model.matchAll(/<item objectid="(\d)"/g)].map((m) => m[1])).toEqual([...'33331122']);
  });

  test('equal projects give equal bytes', async () => {
    const again = { ...(await make(project, { kernel: await loadKernel() })), bed_mm: made.bed_mm };
    expect(Buffer.from(writeThreeMf(again)).equals(Buffer.from(writeThreeMf(made)))).toBe(true);
  });

  test('every file keeps the rules of the core specification; one for each bed, the first with the assembly', () => {
    const files = threeMfFiles(small, 'scout', (part) => craftPlaces(project, part));
    expect(files.map(({ name }) => name)).toEqual(['scout-bed-1.3mf', 'scout-bed-2.3mf']);
    expect(files.map(({ bytes }) => checkThreeMf(bytes))).toEqual([[], []]);
    const [first, second] = files.map(({ bytes }) => strFromU8(unzipSync(bytes)['3D/3dmodel.model']));
    expect(first.match(/<component /g)).toHaveLength(8);
    expect(first.match(/<item /g)).toHaveLength(4);
    expect(first).toContain('Printable parts, bed 1 of 2: 4 × duct.');
    expect(second.match(/<component /g)).toBeNull();
    expect(second.match(/<item /g)).toHaveLength(4);
    expect(threeMfFiles(made, 'scout', undefined).map(({ name }) => name)).toEqual(['scout.3mf']);
  });

  test('the check finds what breaks the rules', () => {
    const cube = {
      ...made.parts[0],
      positions: Float32Array.from({ length: 24 }, (_, i) => (Math.floor(i / 3) >> (i % 3)) & 1),
      indices: Uint32Array.from([...'023031457476015054267273046062137175'].map(Number)),
      quantity: 1,
    };
    const cubes = { ...made, parts: [cube, { ...cube, id: 'other' }] };
    const files = unzipSync(writeThreeMf(cubes));
    expect(checkThreeMf(writeThreeMf(cubes))).toEqual([]);
    const broken = (from: string | RegExp, to: string) =>
      checkThreeMf(
        zipSync({
          ...files,
          '3D/3dmodel.model': strToU8(strFromU8(files['3D/3dmodel.model']).replace(from, to)),
        }),
      ).join(' ');
    expect(broken('unit="millimeter"', 'unit="mm"')).toMatch(/unit/);
    expect(broken('objectid="1"', 'objectid="9"')).toMatch(/9/);
    expect(broken('id="2"', 'id="1"')).toMatch(/twice/);
    expect(broken(/<triangle [^>]*>\n/, '')).toMatch(/edge/);
    expect(broken('v1="0"', 'v1="999999"')).toMatch(/vertex/);
    expect(broken('<build>', '<build colour="red">')).toMatch(/colour/);
    expect(broken('name="Application"', 'name="Maker"')).toMatch(/Maker/);
    expect(broken(/ v1="(\d+)" v2="(\d+)"/g, ' v1="$2" v2="$1"')).toMatch(/inside out/);
  });

  test('the picture is a PNG of 256 by 256 that shows something on a clear ground', () => {
    const bytes = unzipSync(writeThreeMf(made))['Metadata/thumbnail.png'];
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    expect([view.getUint32(16), view.getUint32(20)]).toEqual([256, 256]);
    const length = view.getUint32(33);
    const lines = unzlibSync(bytes.subarray(41, 41 + length));
    const opacity = Array.from(
      { length: 256 * 256 },
      (_, i) => lines[(i >> 8) * 1025 + 1 + 4 * (i & 255) + 3],
    );
    const share = opacity.filter((a) => a > 0).length / opacity.length;
    expect(share).toBeGreaterThan(0.1);
    expect(share).toBeLessThan(0.9);
    expect(opacity[0]).toBe(0);
  });

  test('copies lie on their beds side by side without overlap, none past an edge', () => {
    for (const of of [made, small]) {
      const beds = layOut(of);
      expect(beds.flat()).toHaveLength(8);
      for (const places of beds) {
        const boxes = places.map(({ part, x, y }) => {
          const { min, max } = part.boundingBox_mm;
          return { left: min[0] + x, right: max[0] + x, front: min[1] + y, back: max[1] + y };
        });
        boxes.forEach((a, i) => {
          expect(Math.min(a.left, a.front)).toBeGreaterThan(0);
          expect(a.right).toBeLessThan(of.bed_mm[0]);
          expect(a.back).toBeLessThan(of.bed_mm[1]);
          for (const b of boxes.slice(i + 1))
            expect(a.right < b.left || b.right < a.left || a.back < b.front || b.back < a.front).toBe(true);
        });
      }
    }
    expect(layOut(small)).toHaveLength(2);
    expect(layOut({ ...made, bed_mm: [50, 50] })).toHaveLength(8);
  });

  test('text that XML forbids or reserves', () => {
    expect(escapeXml('a<b>&"\'\u0000\u0007\ud800é😀')).toBe('a&lt;b&gt;&amp;&quot;&apos;é😀');
  });

  test('three reads it back: eight copies, names, volumes', () => {
    Object.assign(globalThis, { DOMParser });
    const bytes = writeThreeMf(made);
    const group = new ThreeMFLoader().parse(
      bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer,
    );
    const wanted = layOut(made)[0].map(({ part }) => ({ name: part.name, volume: part.volume_m3 * 1e9 }));
    expect(group.children).toHaveLength(wanted.length);
    group.children.forEach((copy, i) => {
      let volume = 0;
      const names: string[] = [];
      copy.traverse((node) => {
        names.push(node.name);
        if ((node as ThreeMesh).isMesh) volume += volumeOf((node as ThreeMesh).geometry);
      });
      expect(names).toContain(wanted[i].name);
      expect(Math.abs(volume / wanted[i].volume - 1)).toBeLessThan(1e-6);
    });
  });

  test.skipIf(!savitar)('savitar reads it back: eight nodes, volumes', () => {
    const file = join(folder, 'all.3mf');
    writeFileSync(file, writeThreeMf(made));
    const script = `
import Savitar, json, struct, sys, zipfile
scene = Savitar.ThreeMFParser().parse(zipfile.ZipFile(sys.argv[1]).read("3D/3dmodel.model"))
found = []
for node in scene.getSceneNodes():
    mesh = node.getMeshData()
    v = [p[0] for p in struct.iter_unpack("<f", mesh.getVerticesAsBytes())]
    f = [i[0] for i in struct.iter_unpack("<i", mesh.getFacesAsBytes())]
    total = 0.0
    for t in range(0, len(f), 3):
        a, b, c = (v[3 * i:3 * i + 3] for i in f[t:t + 3])
        total += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]))
    found.append([node.getName(), total / 6])
print(json.dumps([scene.getUnit(), found]))
`;
    const said = execFileSync('/usr/bin/python3', ['-c', script, file], { encoding: 'utf8' });
    const [unit, nodes] = JSON.parse(said) as [string, [string, number][]];
    expect(unit).toBe('millimeter');
    const wanted = layOut(made)[0].map(({ part }) => part);
    expect(nodes.map(([name]) => name)).toEqual(wanted.map((part) => part.name));
    nodes.forEach(([, volume], i) =>
      expect(Math.abs(volume / (wanted[i].volume_m3 * 1e9) - 1)).toBeLessThan(1e-5),
    );
  });
});
