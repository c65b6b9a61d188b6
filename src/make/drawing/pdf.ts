import { widths } from './helvetica.ts';
import { LINES, type Mark, type Point, type Sheet } from './sheet.ts';

/** Points of 1/72 inch in a millimetre. */
const PT = 72 / 25.4;

const number = (value: number): string => String(Number(value.toFixed(3)));

/** The sheet as a PDF 1.4 file of lines and standard Helvetica text: nothing embedded, no date, equal input equal bytes. */
export function writePdf(sheet: Sheet): Uint8Array {
  const { width_mm: w, height_mm: h } = sheet;
  const at = ([x, y]: Point) => `${number(x * PT)} ${number((h - y) * PT)}`;
  const content = sheet.marks.map((mark) => markPdf(mark, at)).join('\n');
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 ${number(w * PT)} ${number(h * PT)}] ` +
      '/Resources << /Font << /F1 5 0 R >> >> /Contents 4 0 R >>',
    `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
    '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    `<< /Title (${literal(sheet.title)}) /Creator (Fanwright) >>`,
  ];
  let file = '%PDF-1.4\n';
  const starts = objects.map((body, i) => {
    const start = file.length;
    file += `${i + 1} 0 obj\n${body}\nendobj\n`;
    return start;
  });
  const table = file.length;
  file +=
    `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n` +
    starts.map((start) => `${String(start).padStart(10, '0')} 00000 n \n`).join('') +
    `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R /Info 6 0 R >>\nstartxref\n${table}\n%%EOF\n`;
  return Uint8Array.from(file, (mark) => mark.charCodeAt(0));
}

function markPdf(mark: Mark, at: (p: Point) => string): string {
  if (mark.kind === 'text') {
    const size = mark.size * 1.25;
    const words = winAnsi(mark.text);
    const long = ([...words].reduce((sum, c) => sum + (widths[c.charCodeAt(0)] ?? 556), 0) / 1000) * size;
    const back = { start: 0, middle: long / 2, end: long }[mark.anchor];
    const [x, y] = mark.at;
    const from: Point = mark.upright ? [x, y + back] : [x - back, y];
    const turn = mark.upright ? '0 1 -1 0' : '1 0 0 1';
    return `BT /F1 ${number(size * PT)} Tf ${turn} ${at(from)} Tm (${literal(mark.text)}) Tj ET`;
  }
  const route = mark.points.map((p, i) => `${at(p)} ${i === 0 ? 'm' : 'l'}`).join(' ');
  if (mark.kind === 'solid') return `${route} f`;
  const { width, dash } = LINES[mark.line];
  const pattern = dash.map((d) => number(d * PT)).join(' ');
  return `${number(width * PT)} w [${pattern}] 0 d 1 j ${route} ${mark.closed ? 's' : 'S'}`;
}

/** The marks of Windows code page 1252 that are not at their own place in Unicode and may occur in a name. */
const MOVED: Record<string, number> = {
  '€': 0x80,
  '…': 0x85,
  '‘': 0x91,
  '’': 0x92,
  '“': 0x93,
  '”': 0x94,
  '–': 0x96,
  '—': 0x97,
};

/** Text in the encoding of the font; what it lacks becomes a question mark. */
function winAnsi(words: string): string {
  return [...words]
    .map((mark) => {
      const code = MOVED[mark] ?? mark.codePointAt(0)!;
      const held = (code >= 32 && code < 127) || (code >= 160 && code < 256) || MOVED[mark] !== undefined;
      return String.fromCharCode(held ? code : 63);
    })
    .join('');
}

/** A string of the file: parentheses and backslash escaped. */
const literal = (words: string): string => winAnsi(words).replace(/[\\()]/g, '\\$&');
