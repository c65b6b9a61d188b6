import { strToU8, zipSync } from 'fflate';
import type { Made, MadePart } from './make.ts';

/** Space between parts on the bed [mm]. Common practice, no source. */
const SPACING = 5;

/** Zip files carry a date; a fixed one keeps equal projects equal byte for byte. */
const DATE = new Date(1980, 0, 1);

const CONTENT_TYPES =
  '<?xml version="1.0" encoding="UTF-8"?>\n' +
  '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">' +
  '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
  '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>' +
  '</Types>\n';

const RELATIONSHIPS =
  '<?xml version="1.0" encoding="UTF-8"?>\n' +
  '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">' +
  '<Relationship Target="/3D/3dmodel.model" Id="rel0" ' +
  'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>' +
  '</Relationships>\n';

/** Where one copy of a part lies: its object is moved by this much [mm]. */
export interface BedPlace {
  readonly part: MadePart;
  readonly x: number;
  readonly y: number;
}

/**
 * Every copy of every part in rows from the front left corner of the bed, tallest rows not sorted, none touching. What
 * does not fit on one bed goes on behind it, for the person at the printer to share out.
 */
export function layOut({ parts, bed_mm }: Pick<Made, 'parts' | 'bed_mm'>): BedPlace[] {
  const places: BedPlace[] = [];
  let x = SPACING;
  let y = SPACING;
  let rowDepth = 0;
  for (const part of parts) {
    const { min, max } = part.boundingBox_mm;
    const [width, depth] = [max[0] - min[0], max[1] - min[1]];
    for (let i = 0; i < part.quantity; i++) {
      if (x > SPACING && x + width + SPACING > bed_mm[0]) {
        x = SPACING;
        y += rowDepth + SPACING;
        rowDepth = 0;
      }
      places.push({ part, x: x - min[0], y: y - min[1] });
      x += width + SPACING;
      rowDepth = Math.max(rowDepth, depth);
    }
  }
  return places;
}

/**
 * A 3MF file by the 3MF Core Specification 1.x (3MF Consortium): one object a part, millimetres, each wanted copy a
 * build item. Equal input gives equal bytes.
 */
export function writeThreeMf(made: Made): Uint8Array {
  const id = new Map(made.parts.map((part, i) => [part, i + 1]));
  const items = layOut(made).map(
    ({ part, x, y }) =>
      `<item objectid="${id.get(part)}" transform="1 0 0 0 1 0 0 0 1 ${number(x)} ${number(y)} 0"/>`,
  );
  const model =
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
    '<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">\n' +
    `<metadata name="Title">${escapeXml(made.name)}</metadata>\n` +
    '<metadata name="Application">Fanwright</metadata>\n' +
    `<resources>\n${made.parts.map((part) => objectXml(part, id.get(part)!)).join('')}</resources>\n` +
    `<build>\n${items.join('\n')}\n</build>\n</model>\n`;
  const file = (text: string): [Uint8Array, { mtime: Date }] => [strToU8(text), { mtime: DATE }];
  return zipSync(
    {
      '[Content_Types].xml': file(CONTENT_TYPES),
      '_rels/.rels': file(RELATIONSHIPS),
      '3D/3dmodel.model': file(model),
    },
    { level: 6 },
  );
}

function objectXml(part: MadePart, id: number): string {
  const { positions: p, indices: t } = part;
  const lines = [
    `<object id="${id}" type="model" name="${escapeXml(part.name)}" partnumber="${escapeXml(part.id)}"><mesh><vertices>`,
  ];
  for (let i = 0; i < p.length; i += 3)
    lines.push(`<vertex x="${number(p[i])}" y="${number(p[i + 1])}" z="${number(p[i + 2])}"/>`);
  lines.push('</vertices><triangles>');
  for (let i = 0; i < t.length; i += 3)
    lines.push(`<triangle v1="${t[i]}" v2="${t[i + 1]}" v3="${t[i + 2]}"/>`);
  lines.push('</triangles></mesh></object>\n');
  return lines.join('\n');
}

/** Nine figures bring a 32-bit float back exactly. */
const number = (value: number): string => String(Number(value.toPrecision(9)));

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** Text for XML 1.0: reserved marks escaped, characters XML does not allow left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/[&<>"']/g, (mark) => ENTITIES[mark]);
}
