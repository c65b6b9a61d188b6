import { readFileSync } from 'node:fs';
import { DOMParser } from 'linkedom';
import { describe, expect, test } from 'vitest';
import { projectSchema } from '../../project/schema.ts';
import { fanDrawing } from './fan.ts';
import { hatched } from './hatch.ts';
import { writePdf } from './pdf.ts';
import { writeSvg } from './svg.ts';

const demo = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);
const named = { ...demo, name: 'Scout (no. 2) <b> & \\ "friends" – Gewächshaus' };
const wordsOf = (project: typeof demo) =>
  fanDrawing(project).marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

describe('drawing of a fan', () => {
  test('says the dimensions of the project', () => {
    const { fan } = demo;
    const words = wordsOf(demo);
    for (const wanted of [
      `tip Ø${fan.tipDiameter_mm}`,
      `hub Ø${fan.hubDiameter_mm}`,
      `bore Ø${fan.tipDiameter_mm + 2 * fan.tipGap_mm}`,
      `gap ${fan.tipGap_mm}`,
      `wall ${fan.duct.wall_mm}`,
      `R${fan.duct.lipRadius_mm}`,
      String(fan.duct.length_mm),
      demo.name,
    ])
      expect(words).toContain(wanted);
  });

  test('stays on its paper, at a usual scale, whatever the size and kind', () => {
    for (const factor of [0.3, 1, 2.4, 9])
      for (const kind of ['ducted', 'open'] as const) {
        const { fan } = demo;
        const sheet = fanDrawing({
          ...demo,
          fan: {
            ...fan,
            kind,
            tipDiameter_mm: fan.tipDiameter_mm * factor,
            hubDiameter_mm: fan.hubDiameter_mm * factor,
            hubHeight_mm: fan.hubHeight_mm * factor,
            blade: fan.blade.map((s) => ({ ...s, chord_mm: s.chord_mm * factor })),
            duct: {
              ...fan.duct,
              lipRadius_mm: fan.duct.lipRadius_mm * factor,
              length_mm: fan.duct.length_mm * factor,
              rotorDepth_mm: fan.duct.rotorDepth_mm * factor,
            },
          },
        });
        const points = sheet.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.at] : mark.points));
        for (const [x, y] of points) {
          expect(x).toBeGreaterThan(10);
          expect(x).toBeLessThan(sheet.width_mm - 5);
          expect(y).toBeGreaterThan(5);
          expect(y).toBeLessThan(sheet.height_mm - 5);
        }
      }
  });

  test('hatching covers the outline and nothing else', () => {
    const square: [number, number][] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    for (const left of [false, true]) {
      const lines = hatched(square, 1, left);
      let long = 0;
      for (const mark of lines) {
        if (mark.kind !== 'path') continue;
        const [[ax, ay], [bx, by]] = mark.points;
        for (const value of [ax, ay, bx, by]) {
          expect(value).toBeGreaterThan(-1e-9);
          expect(value).toBeLessThan(10 + 1e-9);
        }
        expect(Math.abs((by - ay) / (bx - ax))).toBeCloseTo(1, 9);
        long += Math.hypot(bx - ax, by - ay);
      }
      expect(Math.abs(long / 100 - 1)).toBeLessThan(0.05);
    }
  });

  test('SVG: well formed, true to size, names escaped', () => {
    const file = writeSvg(fanDrawing(named));
    expect(file).toContain('width="297mm" height="210mm"');
    expect(file).toContain('Scout (no. 2) &lt;b&gt; &amp; \\ &quot;friends&quot; – Gewächshaus');
    const parsed = new DOMParser().parseFromString(file, 'image/svg+xml');
    expect(parsed.querySelectorAll('text').length).toBe(wordsOf(named).length);
  });

  test('PDF: the table of objects points at them, names escaped, equal bytes twice', () => {
    const bytes = writePdf(fanDrawing(named));
    const file = Buffer.from(bytes).toString('latin1');
    expect(file.startsWith('%PDF-1.4\n')).toBe(true);
    const table = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(file)![1]);
    expect(file.slice(table, table + 4)).toBe('xref');
    [...file.slice(table).matchAll(/^(\d{10}) 00000 n /gm)].forEach(([, start], i) =>
      expect(file.slice(Number(start)).startsWith(`${i + 1} 0 obj`)).toBe(true),
    );
    const [, length, content] = /\/Length (\d+) >>\nstream\n([^]*?)\nendstream/.exec(file)!;
    expect(content.length).toBe(Number(length));
    expect(file).toContain('Scout \\(no. 2\\) <b> & \\\\ "friends" \x96 Gew\xe4chshaus');
    expect(Buffer.from(writePdf(fanDrawing(named))).equals(Buffer.from(bytes))).toBe(true);
  });
});
