import { readFileSync } from 'node:fs';

/** A table of numbers under checks/data: lines that start with # say where it comes from, then names, then rows. */
export interface Table {
  readonly source: string;
  readonly column: (name: string) => readonly number[];
  readonly text: (name: string) => readonly string[];
}

/** Reads `name` from checks/data. Throws where a column is missing or a cell is no number. */
export function readTable(name: string): Table {
  const lines = readFileSync(new URL(`data/${name}`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  const remarks = lines.filter((line) => line.startsWith('#'));
  const [head, ...rows] = lines.filter((line) => !line.startsWith('#')).map((line) => line.split(','));
  const text = (wanted: string) => {
    const at = head.indexOf(wanted);
    if (at < 0) throw new Error(`${name} has no column ${wanted}`);
    return rows.map((row) => row[at] ?? '');
  };
  return {
    source: remarks.map((line) => line.replace(/^#\s*/, '')).join(' '),
    text,
    column: (wanted) =>
      text(wanted).map((cell, i) => {
        const value = Number(cell);
        if (cell === '' || !Number.isFinite(value))
          throw new Error(`${name}, row ${i + 1}: ${wanted} is no number`);
        return value;
      }),
  };
}
