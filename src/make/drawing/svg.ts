import { escapeXml } from '../threemf.ts';
import { LINES, type Mark, type Point, type Sheet } from './sheet.ts';

const number = (value: number): string => String(Number(value.toFixed(3)));
const place = ([x, y]: Point): string => `${number(x)} ${number(y)}`;

/** The sheet as an SVG file at its true size. */
export function writeSvg({ title, width_mm, height_mm, marks }: Sheet): string {
  return (
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width_mm}mm" height="${height_mm}mm" ` +
    `viewBox="0 0 ${width_mm} ${height_mm}" font-family="Helvetica, Arial, sans-serif" fill="none" stroke="#000" ` +
    `stroke-linejoin="round">\n<title>${escapeXml(title)}</title>\n` +
    `<rect width="${width_mm}" height="${height_mm}" fill="#fff" stroke="none"/>\n` +
    marks.map(markSvg).join('\n') +
    '\n</svg>\n'
  );
}

function markSvg(mark: Mark): string {
  if (mark.kind === 'text') {
    const { at, size, anchor, upright } = mark;
    const turned = upright ? ` transform="rotate(-90 ${place(at)})"` : '';
    return (
      `<text x="${number(at[0])}" y="${number(at[1])}" font-size="${number(size * 1.25)}" ` +
      `text-anchor="${anchor}" fill="#000" stroke="none"${turned}>${escapeXml(mark.text)}</text>`
    );
  }
  const d = `M${mark.points.map(place).join('L')}${mark.kind === 'solid' || mark.closed ? 'Z' : ''}`;
  if (mark.kind === 'solid') return `<path d="${d}" fill="#000" stroke="none"/>`;
  const { width, dash } = LINES[mark.line];
  return `<path d="${d}" stroke-width="${width}"${dash.length ? ` stroke-dasharray="${dash.join(' ')}"` : ''}/>`;
}
