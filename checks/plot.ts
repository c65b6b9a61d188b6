import * as Plot from '@observablehq/plot';
import { parseHTML } from 'linkedom';
import type { Outcome, Picture, Series } from './check.ts';

const INK = '#24303a';
const OURS = '#1f6f8b';
const THEIRS = '#b4532a';
const COLOURS = [OURS, THEIRS, '#5b7d2a', '#7a4a8c'];

/** Height of a line of words. */
const LINE = 15;

/** Draws a curve check: their points, our line, zero included so that a small error looks small. */
export function plotOutcome({ check, points }: Outcome): string {
  const rows = points.map((p) => {
    if (p.x === undefined || typeof p.theirs !== 'number')
      throw new Error(`The check ${check.id} has an axis but a point that cannot be drawn.`);
    return { x: p.x, ours: p.ours, theirs: p.theirs };
  });
  return svgOf(
    check.axis ?? '',
    check.unit ? `${check.title} [${check.unit}]` : check.title,
    { height: 300 },
    [
      Plot.line(rows, { x: 'x', y: 'ours', stroke: OURS, strokeWidth: 2 }),
      Plot.dot(rows, { x: 'x', y: 'theirs', stroke: THEIRS, r: 3.5 }),
      Plot.text(['line: computed here; circles: measured'], {
        frameAnchor: 'bottom-right',
        dx: -6,
        dy: -6,
        fill: INK,
      }),
    ],
  );
}

/** Draws several curves in one frame, with what each is above it. */
export function plotPicture({ id, xLabel, yLabel, series }: Picture): string {
  if (series.some(({ points }) => points.length === 0))
    throw new Error(`The picture ${id} has an empty curve.`);
  const named = series.filter(({ name }) => name);
  const options = { height: 320 + LINE * named.length, marginTop: 22 + LINE * named.length };
  return svgOf(xLabel, yLabel, options, [
    ...series.map(drawn),
    ...named.map(({ name, colour }, i) =>
      Plot.text([name], {
        frameAnchor: 'top-right',
        dy: -8 - LINE * (named.length - i),
        fill: COLOURS[colour],
      }),
    ),
  ]);
}

const drawn = ({ kind, colour, points }: Series) =>
  kind === 'circles'
    ? Plot.dot(points, { x: 'x', y: 'y', stroke: COLOURS[colour], r: 3.5 })
    : Plot.line(points, {
        x: 'x',
        y: 'y',
        stroke: COLOURS[colour],
        strokeWidth: kind === 'line' ? 2 : 1.5,
        strokeDasharray: kind === 'line' ? undefined : '5 4',
      });

function svgOf(
  xLabel: string,
  yLabel: string,
  options: Plot.PlotOptions,
  marks: readonly Plot.Markish[],
): string {
  const { document } = parseHTML('<html><body></body></html>');
  const svg = Plot.plot({
    document: document as unknown as Document,
    width: 560,
    ...options,
    marginLeft: 56,
    marginBottom: 44,
    style: { background: 'white', color: INK, fontFamily: 'sans-serif', fontSize: '12px' },
    x: { label: xLabel, grid: true },
    y: { label: yLabel, zero: true, grid: true, nice: true },
    marks: [Plot.ruleY([0]), ...marks],
  });
  return withShortNumbers(svg.outerHTML).replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ') + '\n';
}

/** Two decimals of a drawing unit are enough, and keep the file the same on every machine. */
const withShortNumbers = (svg: string): string =>
  svg.replace(/-?\d+\.\d{3,}/g, (number) => String(Number(Number(number).toFixed(2))));
