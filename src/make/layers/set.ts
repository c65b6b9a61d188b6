import type { Design } from '../../project/schema.ts';
import { materialAndTime, type MaterialTime } from '../../print/material-time.ts';
import type { Kernel } from '../kernel.ts';
import type { Made, MadePart } from '../make.ts';
import { layerSteps } from './check.ts';
import { fromBed, type Direction } from './lie.ts';
import { judged, orientations, type Lie } from './orientation.ts';
import { checkedPart, lyingPart } from './part-check.ts';
import { rulesOf } from './slice.ts';
import type { LayerCheck } from './types.ts';

/** A way to lay a part, with what faces the bed in the frame the part is drawn in: fit for `fan.lies`. */
export interface WayToLie extends Lie {
  readonly inFan: Direction;
}

/** One part of the set, read layer by layer. */
export interface PartPrint {
  readonly id: string;
  readonly name: string;
  readonly kind: MadePart['kind'];
  readonly quantity: number;
  readonly check: LayerCheck;
  /** One piece. */
  readonly print: MaterialTime;
  /** Material of one piece, in the currency of `material.pricePerKg`. */
  readonly price: number;
  /** As it lies now, on the same score as `ways`. */
  readonly now: WayToLie;
  /** Best first; empty where they were not asked for. */
  readonly ways: readonly WayToLie[];
}

/** All parts of a craft, in figures. */
export interface PrintSet {
  readonly layer_mm: number;
  readonly parts: readonly PartPrint[];
  readonly pieces: number;
  readonly mass_g: number;
  /** null for resin. */
  readonly filament_m: number | null;
  readonly time_h: number;
  readonly price: number;
}

export interface SetProgress {
  /** Share of the work done, 0..1. */
  readonly done: number;
  readonly part: string;
}

export interface SetOptions {
  /** Look at these parts only. */
  readonly only?: readonly string[];
  /** Search for the best way to lay each part; default true. */
  readonly ways?: boolean;
}

/** Ways that are kept: the best few say all there is to say. */
const KEPT = 6;

/**
 * Reads every part of a set layer by layer, with material, time, price and the ways it could lie. A mirrored part is read
 * once. Yields how far it is; leave it by `return()`, and it gives the kernel's memory back.
 */
export function* setSteps(
  kernel: Kernel,
  design: Design,
  made: Made,
  { only, ways = true }: SetOptions = {},
): Generator<SetProgress, PrintSet, void> {
  const { printer, material } = design;
  const rules = rulesOf(printer);
  const chosen = made.parts.filter(({ id }) => !only || only.includes(id));
  const shares = sharesOf(chosen);
  const read: PartPrint[] = [];
  let before = 0;
  for (const part of chosen) {
    const { id, name, kind, quantity } = part;
    const twin = read.find((other) => other.kind === kind);
    if (twin) {
      // Mirrored: the same layers the other way round.
      read.push({ ...twin, id, name, quantity });
      continue;
    }
    const share = shares.get(id)!;
    const steps = layerSteps(kernel, checkedPart({ ...part, name: withoutHand(name) }, design), rules);
    let step;
    try {
      for (step = steps.next(); !step.done; step = steps.next())
        yield { done: before + share * step.value, part: name };
    } finally {
      steps.return(undefined as never);
    }
    const check = step.value;
    const lying = lyingPart(part, design);
    const inFan = (lie: Lie): WayToLie => ({ ...lie, inFan: fromBed(part.placement, lie.down) });
    const print = materialAndTime(check.layers, check.layer_mm, printer, material);
    read.push({
      id,
      name,
      kind,
      quantity,
      check,
      print,
      price: (print.mass_g / 1000) * material.pricePerKg,
      now: inFan(judged(lying, [0, 0, -1], printer, material)),
      ways: ways ? orientations(lying, printer, material).slice(0, KEPT).map(inFan) : [],
    });
    before += share;
    yield { done: before, part: name };
  }
  return summed(read, rules.layer);
}

/** The same in one go. */
export function printSet(kernel: Kernel, design: Design, made: Made, options: SetOptions = {}): PrintSet {
  const steps = setSteps(kernel, design, made, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

function summed(parts: readonly PartPrint[], layer_mm: number): PrintSet {
  const sum = (pick: (part: PartPrint) => number) =>
    parts.reduce((total, part) => total + part.quantity * pick(part), 0);
  return {
    layer_mm,
    parts,
    pieces: sum(() => 1),
    mass_g: sum(({ print }) => print.mass_g),
    filament_m: parts.some(({ print }) => print.filament_m === null)
      ? null
      : sum(({ print }) => print.filament_m ?? 0),
    time_h: sum(({ print }) => print.time_h),
    price: sum(({ price }) => price),
  };
}

/** How much of the work each part is, by its triangles and height; twins count nothing. */
function sharesOf(parts: readonly MadePart[]): Map<string, number> {
  const weight = new Map<string, number>();
  const kinds = new Set<string>();
  for (const { id, kind, boundingBox_mm: box, indices } of parts) {
    weight.set(id, kinds.has(kind) ? 0 : (box.max[2] - box.min[2]) * Math.sqrt(indices.length));
    kinds.add(kind);
  }
  const total = [...weight.values()].reduce((a, b) => a + b, 0);
  return new Map([...weight].map(([id, one]) => [id, one / total]));
}

const withoutHand = (name: string) => name.replace(/, (right|left)-hand$/, '');
