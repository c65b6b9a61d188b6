import type { Made, MadePart } from './make.ts';

/** Space between parts, and to the edge of the bed [mm]. Common practice, no source. */
const SPACING = 5;

/** Where one copy of a part lies: its object is moved by this much [mm]. */
export interface BedPlace {
  readonly part: MadePart;
  readonly x: number;
  readonly y: number;
}

/** What is printed in one go, from the front left corner of the bed. */
export type Bed = readonly BedPlace[];

interface Row {
  readonly y: number;
  readonly depth: number;
  x: number;
}

/**
 * Every copy of every part in rows, deepest parts first, none touching, on as few beds as that takes. A part that is larger
 * than the bed gets one to itself: the list of parts says so, and only its maker knows of a larger printer.
 */
export function layOut({ parts, bed_mm: [bedX, bedY] }: Pick<Made, 'parts' | 'bed_mm'>): Bed[] {
  const copies = parts
    .flatMap((part) => {
      const { min, max } = part.boundingBox_mm;
      const size = { part, min, width: max[0] - min[0], depth: max[1] - min[1] };
      return Array.from({ length: part.quantity }, () => size);
    })
    .sort((a, b) => b.depth - a.depth);
  const beds: { places: BedPlace[]; rows: Row[] }[] = [];
  for (const { part, min, width, depth } of copies) {
    const put = (bed: (typeof beds)[number]): boolean => {
      let row = bed.rows.find((r) => depth <= r.depth && r.x + width + SPACING <= bedX);
      if (!row) {
        const last = bed.rows.at(-1);
        const y = last ? last.y + last.depth + SPACING : SPACING;
        const fits = y + depth + SPACING <= bedY && width + 2 * SPACING <= bedX;
        if (!fits && bed.places.length > 0) return false;
        row = { y, depth, x: SPACING };
        bed.rows.push(row);
      }
      bed.places.push({ part, x: row.x - min[0], y: row.y - min[1] });
      row.x += width + SPACING;
      return true;
    };
    if (beds.some(put)) continue;
    beds.push({ places: [], rows: [] });
    put(beds.at(-1)!);
  }
  return beds.map(({ places }) => places);
}
