import type { FanProfiles } from '../../shape/profiles.ts';

/** Pixels of one millimetre at full scale: CSS counts 96 pixels an inch. */
const PX_PER_MM = 96 / 25.4;

/** Scales a drawing is shown in, largest first. */
const SCALES = [10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1.25, 1].concat(
  [1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50, 100].map((n) => 1 / n),
);

/** Where the drawing stands on its paper. Lengths in metres go in, pixels come out. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly pxPerM: number;
  readonly axisY: number;
  readonly originX: number;
  /** Little room: labels without their names. */
  readonly compact: boolean;
}

export const xOf = (frame: Frame, z: number): number => frame.originX + z * frame.pxPerM;
export const yOf = (frame: Frame, r: number): number => frame.axisY - r * frame.pxPerM;

/** The largest drawing scale that is no larger than `wanted` (pixels a metre over pixels a metre at full scale). */
export function scaleBelow(wanted: number): number {
  return SCALES.find((s) => s <= wanted * 1.0001) ?? SCALES[SCALES.length - 1];
}

export function scaleInWords(scale: number): string {
  const round = (x: number) => String(Number(x.toFixed(2)));
  return scale >= 1 ? `${round(scale)} : 1` : `1 : ${round(1 / scale)}`;
}

export const pxPerMetre = (scale: number): number => scale * PX_PER_MM * 1000;

/** Leftmost and rightmost place of the section along the axis [m]. */
export function extentOf({
  layout,
  blade,
  tailCone,
  spinner,
  tipRing,
}: FanProfiles): readonly [number, number] {
  const bladeZ = [...blade, ...(spinner ?? []), ...(tipRing ?? [])].map(([z]) => z);
  const left = Math.min(layout.hubTopZ, ...bladeZ, layout.ducted ? layout.topZ : Infinity);
  const right = Math.max(
    layout.seatTopZ,
    ...bladeZ,
    layout.ducted ? Math.max(layout.exitZ, layout.seatBottomZ, tailCone ? layout.tailZ : 0) : -Infinity,
  );
  return [left, right];
}

/** Fits the half-section on its paper at a drawing scale, with room for dimensions on all sides. */
export function fitFrame(profiles: FanProfiles, width: number, height: number): Frame {
  const { layout } = profiles;
  const compact = width < 500;
  const [left, right] = extentOf(profiles);
  const outer = layout.ducted ? layout.outerRadius : layout.turningRadius;
  const top = compact ? 88 : 92;
  const bottom = 74;
  const padRight = compact ? 96 : 146;
  let padLeft = compact ? 66 : 96;
  let frame: Frame | null = null;
  // The room on the left depends on how far the hub stands before the lip, in pixels; twice round settles it.
  for (let i = 0; i < 3; i++) {
    const wanted = Math.min((width - padLeft - padRight) / (right - left), (height - top - bottom) / outer);
    const scale = scaleBelow(Math.max(wanted, 1) / pxPerMetre(1));
    const pxPerM = pxPerMetre(scale);
    const drawn = (right - left) * pxPerM;
    const spare = Math.max(0, width - padLeft - padRight - drawn);
    const spareHeight = Math.max(0, height - top - bottom - outer * pxPerM);
    frame = {
      width,
      height,
      scale,
      pxPerM,
      axisY: height - bottom - spareHeight * 0.5,
      originX: padLeft + spare * 0.5 - left * pxPerM,
      compact,
    };
    const need = (compact ? 100 : 160) - (layout.hubTopZ - left) * pxPerM;
    padLeft = Math.max(padLeft, need);
  }
  return frame as Frame;
}
