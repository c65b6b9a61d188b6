import { expose, transfer } from 'comlink';
import { assemble, type Assembly } from '../../make/assembly.ts';
import { checkProject } from '../../make/interference-project.ts';
import { couponMesh } from '../../make/coupon.ts';
import { loadKernel, type Kernel } from '../../make/kernel.ts';
import { make, type Made } from '../../make/make.ts';
import { isGeometryFaultError, makePart, presentKinds } from '../../make/part.ts';
import { writeStl } from '../../make/stl.ts';
import { craftPlaces } from '../../make/places.ts';
import { threeMfFiles } from '../../make/threemf.ts';
import type { Named, Refused, ShownCraft, SolidsWorker } from './solids.ts';

let kernel: Promise<Kernel> | null = null;
let last: { readonly project: Named; readonly made: Promise<Made> } | null = null;

function ready(): Promise<Kernel> {
  kernel ??= loadKernel().catch((error: unknown) => {
    kernel = null;
    throw error;
  });
  return kernel;
}

/** The parts in full quality; a second question about the same project costs nothing. */
async function madeOf(project: Named): Promise<Made> {
  if (last && JSON.stringify(last.project) === JSON.stringify(project)) return last.made;
  const made = make(project, { kernel: await ready() });
  last = { project, made };
  return made;
}

async function refusing<T>(work: () => Promise<T>): Promise<T | Refused> {
  try {
    return await work();
  } catch (error) {
    if (isGeometryFaultError(error)) return { ok: false, why: error.faults.map((f) => f.text) };
    console.error(error);
    return { ok: false, why: ['The solid kernel could not build this shape; the numbers are not affected.'] };
  }
}

const worker: SolidsWorker = {
  shown: (design, quality) =>
    refusing(async () => {
      const at = await ready();
      // One body holds the ducts of all fans; the view of one fan shows its own.
      const alone = {
        ...design,
        craft: { ...design.craft, frame: { ...design.craft.frame, kind: 'none' as const } },
      };
      const ofFan = presentKinds(alone).filter(({ per }) => per === 'fan');
      const parts = ofFan.map(({ kind, name }) => {
        const { positions, indices, placements, volume_m3 } = makePart(at, alone, kind, { quality });
        return { kind, name, positions, indices, placements, volume_m3 };
      });
      return transfer(
        { ok: true as const, parts },
        parts.flatMap((p) => [p.positions.buffer, p.indices.buffer]),
      );
    }),
  parts: (project) =>
    refusing(async () => {
      const { parts } = await madeOf(project);
      return {
        ok: true as const,
        parts: parts.map(
          ({ id, name, quantity, volume_m3, mass_g, boundingBox_mm: { min, max }, indices }) => ({
            id,
            name,
            quantity,
            volume_m3,
            mass_g,
            size_mm: [max[0] - min[0], max[1] - min[1], max[2] - min[2]] as const,
            triangles: indices.length / 3,
          }),
        ),
      };
    }),
  assembled: (project) =>
    refusing(async () => {
      const made = await make(project, { kernel: await ready(), quality: 'coarse' });
      const craft = shownCraft(assemble(project, made));
      return transfer(
        { ok: true as const, craft },
        craft.meshes.flatMap((mesh) => [mesh.positions.buffer, mesh.indices.buffer]),
      );
    }),
  fit: (project) =>
    refusing(async () => {
      const { fit } = checkProject(await ready(), project, await madeOf(project));
      return { ok: true as const, fit };
    }),
  file: (project, wanted) =>
    refusing(async () => {
      const made = await madeOf(project);
      const part = made.parts.find((p) => p.id === wanted.partId);
      if (!part) return { ok: false as const, why: ['This part is no longer in the design.'] };
      return { ok: true as const, bytes: owned(writeStl(part, part.name)) };
    }),
  coupon: () =>
    refusing(async () => ({
      ok: true as const,
      bytes: owned(writeStl(couponMesh(await ready()), 'coupon')),
    })),
  beds: (project, stem) =>
    refusing(async () => {
      const made = await madeOf(project);
      const files = threeMfFiles(made, stem, (part) => craftPlaces(project, part));
      return {
        ok: true as const,
        files: files.map(({ name, bytes }) => ({ name, bytes: new Uint8Array(bytes) })),
      };
    }),
};

function shownCraft({ pieces, centreOfMass_mm, mass_g, frameScrews }: Assembly): ShownCraft {
  const meshes = [...new Set(pieces.map(({ mesh }) => mesh))];
  return {
    meshes: meshes.map(({ positions, indices }) => ({ positions, indices })),
    pieces: pieces.map(({ mesh, turns, bought, placement }) => ({
      mesh: meshes.indexOf(mesh),
      look: bought ? 'bought' : turns ? 'turns' : 'printed',
      placement,
    })),
    centreOfMass_mm,
    mass_g,
    frameScrews,
  };
}

/** Bytes that own their whole buffer, so that they can be handed over. */
function owned(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const copy = new Uint8Array(bytes);
  return transfer(copy, [copy.buffer]);
}

expose(worker);
