import { readFileSync } from 'node:fs';
import occtImport from 'occt-import-js';
import { beforeAll, describe, expect, test } from 'vitest';
import { projectSchema } from '../../project/schema.ts';
import { loadKernel, type Kernel } from '../kernel.ts';
import { make, type Made } from '../make.ts';
import { measure } from '../mesh.ts';
import { withKept } from './kernel.ts';
import { exactPart } from './part.ts';
import { loadStepKernel, stepOfAssembly, stepOfPart, type StepKernel } from './step.ts';
import { stepString } from './write.ts';

const demo = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);
// One piece each, so that the test stays quick whatever the demo is divided into.
const project = {
  ...demo,
  name: "Scout 'no. 2' – Gewächs\\haus",
  craft: {
    ...demo.craft,
    fanCount: 2,
    layout: 'row' as const,
    frame: { ...demo.craft.frame, kind: 'none' as const },
  },
  fan: {
    ...demo.fan,
    bladeCount: 2,
    stator: { ...demo.fan.stator, vaneCount: 2 },
    rotorParts: 'one piece' as const,
    duct: { ...demo.fan.duct, tailCone: true, rings: 1, lipApart: false, lugCount: 0, wireSlot_mm: 0 },
  },
};

interface ReadMesh {
  readonly name: string;
  readonly attributes: { readonly position: { readonly array: number[] } };
  readonly index: { readonly array: number[] };
}
interface ReadStep {
  readonly success: boolean;
  readonly root: { readonly name: string; readonly children: { readonly name: string }[] };
  readonly meshes: readonly ReadMesh[];
}

let kernel: Kernel;
let step: StepKernel;
let made: Made;
let read: (bytes: Uint8Array) => ReadStep;
beforeAll(async () => {
  kernel = await loadKernel();
  step = await loadStepKernel();
  made = await make(project, { kernel });
  const reader = await occtImport();
  read = (bytes) =>
    reader.ReadStepFile(bytes, {
      linearUnit: 'millimeter',
      linearDeflectionType: 'absolute_value',
      linearDeflection: 0.02,
      angularDeflection: 0.2,
    }) as ReadStep;
}, 30_000);

const measuredAgain = ({ attributes, index }: ReadMesh) =>
  measure({
    positions: Float32Array.from(attributes.position.array),
    indices: Uint32Array.from(index.array),
  });

describe('STEP', () => {
  test('another reader finds each part with the volume and the size of its mesh, and equal bytes come twice', () => {
    for (const part of made.parts) {
      const bytes = stepOfPart({ step, kernel, project, made }, part);
      const { success, meshes } = read(bytes);
      expect(success).toBe(true);
      expect(meshes.map(({ name }) => name)).toEqual([part.name]);
      const { volume, box } = measuredAgain(meshes[0]);
      expect(Math.abs(volume / (part.volume_m3 * 1e9) - 1)).toBeLessThan(0.01);
      for (const end of ['min', 'max'] as const)
        box[end].forEach((value, i) =>
          expect(Math.abs(value - part.boundingBox_mm[end][i])).toBeLessThan(0.05),
        );
      if (part.kind === 'tailCone')
        expect(
          Buffer.from(stepOfPart({ step, kernel, project, made }, part)).equals(Buffer.from(bytes)),
        ).toBe(true);
    }
  }, 60_000);

  test('the assembly holds every copy once, in its place, and says how far it is', () => {
    const shares: number[] = [];
    const { bytes, missing } = stepOfAssembly({ step, kernel, project, made }, (done) => shares.push(done));
    expect(missing).toEqual([]);
    expect(shares.at(-1)).toBe(1);
    expect(shares).toHaveLength(made.parts.length);
    const text = new TextDecoder().decode(bytes);
    expect(text).toContain(`FILE_NAME(${stepString(project.name)},'1970-01-01T00:00:00'`);
    expect(text.match(/MANIFOLD_SOLID_BREP\(/g)).toHaveLength(made.parts.length);
    const { success, root, meshes } = read(bytes);
    expect(success).toBe(true);
    const copies = made.parts.reduce((sum, part) => sum + part.quantity, 0);
    expect(root.children[0]?.name ?? root.name).toBe(project.name);
    expect(meshes).toHaveLength(copies);
    const wanted = made.parts.reduce((sum, part) => sum + part.quantity * part.volume_m3 * 1e9, 0);
    const found = meshes.reduce((sum, mesh) => sum + measuredAgain(mesh).volume, 0);
    expect(Math.abs(found / wanted - 1)).toBeLessThan(0.01);
    // Two fans side by side: their rotors stand apart by one rim and the gap between.
    const ys = meshes
      .filter(({ name }) => name.startsWith('rotor'))
      .map((mesh) => measuredAgain(mesh).box)
      .map(({ min, max }) => (min[1] + max[1]) / 2);
    const duct = made.parts.find(({ kind }) => kind === 'duct')!.boundingBox_mm;
    expect(Math.abs(ys[0] - ys[1])).toBeGreaterThan(duct.max[1] - duct.min[1]);
  }, 60_000);

  test('what has facets only is refused in one sentence', () => {
    const blunt = {
      ...kernel,
      Manifold: new Proxy(kernel.Manifold, {
        get: (target, key) =>
          key === 'union'
            ? (list: ConstructorParameters<typeof kernel.Manifold>[]) =>
                target.hull(list as unknown as Parameters<typeof target.hull>[0])
            : (Reflect.get(target, key) as unknown),
      }),
    };
    expect(() => withKept((keep) => exactPart(step, keep, blunt, project, 'rotor'))).toThrow(
      /^No STEP solid of the rotor: its volume came out [\d.]+ % off the mesh/,
    );
  }, 60_000);

  test('text as ISO 10303-21 wants it', () => {
    expect(stepString("a'b\\c\n–😀")).toBe("'a''b\\\\c \\X2\\2013\\X0\\\\X4\\0001F600\\X0\\'");
  });
});
