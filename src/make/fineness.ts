import type { Printer } from '../project/schema.ts';

/** `fine` for files, `coarse` for the page while a dimension is being dragged. */
export type Quality = 'fine' | 'coarse';

/** Largest distance between a curve and its straight pieces [m], finer than what a printer can resolve. */
const FINE = 2e-5;
const COARSE = 1.5e-4;

/** Facets follow curves to within this [m]: 0.02 mm, or half a pixel of a resin printer where that is less. */
export function facetError(printer: Printer, quality: Quality): number {
  if (quality === 'coarse') return COARSE;
  return printer.process === 'resin' ? Math.min(FINE, printer.lineWidth_mm * 0.5e-3) : FINE;
}

/** Pieces of a full circle of `radius` [m] that stay within `error` [m]: r (1 - cos(pi / n)) <= error; a multiple of 4. */
export function circleSegments(radius: number, error: number): number {
  const n = Math.PI / Math.acos(1 - Math.min(0.3, error / radius));
  return Math.min(720, Math.max(24, 4 * Math.ceil(n / 4)));
}
