import { path, type Mark, type Point } from './sheet.ts';

/** Lines at 45 degrees inside a closed outline, `apart` [mm] from each other; leaning the other way where `left`. */
export function hatched(outline: readonly Point[], apart: number, left = false): Mark[] {
  const turn = left ? -1 : 1;
  // Along u the lines run, across them is v.
  const uv = outline.map(([x, y]): Point => [(x + turn * -y) / Math.SQRT2, (turn * x + y) / Math.SQRT2]);
  const low = Math.min(...uv.map(([, v]) => v));
  const high = Math.max(...uv.map(([, v]) => v));
  const marks: Mark[] = [];
  for (let v = Math.ceil(low / apart) * apart + apart * 0.01; v < high; v += apart) {
    const crossings: number[] = [];
    for (let i = uv.length - 1, j = 0; j < uv.length; i = j++) {
      const [[au, av], [bu, bv]] = [uv[i], uv[j]];
      if (av > v !== bv > v) crossings.push(au + ((v - av) / (bv - av)) * (bu - au));
    }
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2)
      marks.push(
        path(
          'hatch',
          [crossings[k], crossings[k + 1]].map((u): Point => [
            (u + turn * v) / Math.SQRT2,
            (v - turn * u) / Math.SQRT2,
          ]),
        ),
      );
  }
  return marks;
}
