import * as Plot from '@observablehq/plot';
import { parseHTML } from 'linkedom';
import type { Outcome } from './check.ts';

const INK = '#24303a';
const OURS = '#1f6f8b';
const THEIRS = '#b4532a';

/** Draws a curve check: their points, our line, zero included so that a small error looks small. */
export function plotOutcome({ check, points }: Outcome): string {
  const { document } = parseHTML('<html><body></body></html>');
  const rows = points.map((p) => {
    if (p.x === undefined || typeof p.theirs !== 'number')
      throw new Error(`The check ${check.id} has an axis but a point that cannot be drawn.`);
    return { x: p.x, ours: p.ours, theirs: p.theirs };
  });
  const svg = Plot.plot({
    document: document as unknown as Document,
    width: 560,
    height: 300,
    marginLeft: 56,
    marginBottom: 44,
    style: { background: 'white', color: INK, fontFamily: 'sans-serif', fontSize: '12px' },
    x: { label: check.axis, grid: true },
    y: {
      label: check.unit ? `${check.title} [${check.unit}]` : check.title,
      zero: true,
      grid: true,
      nice: true,
    },
    marks: [
      Plot.ruleY([0]),
      Plot.line(rows, { x: 'x', y: 'ours', stroke: OURS, strokeWidth: 2 }),
      Plot.dot(rows, { x: 'x', y: 'theirs', stroke: THEIRS, r: 3.5 }),
      Plot.text(['line: computed here; circles: measured'], {
        frameAnchor: 'bottom-right',
        dx: -6,
        dy: -6,
        fill: INK,
      }),
    ],
  });
  return withShortNumbers(svg.outerHTML).replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ') + '\n';
}

/** Two decimals of a drawing unit are enough, and keep the file the same on every machine. */
const withShortNumbers = (svg: string): string =>
  svg.replace(/-?\d+\.\d{3,}/g, (number) => String(Number(Number(number).toFixed(2))));
