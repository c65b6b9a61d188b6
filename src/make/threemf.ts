import { strToU8, zipSync } from 'fflate';
import { layOut, type Bed } from './layout.ts';
import type { Made, MadePart } from './make.ts';
import type { Placement } from './kind.ts';
import { thumbnail } from './thumbnail.ts';

/** Zip files carry a date; a fixed one keeps equal projects equal byte for byte. */
const DATE = new Date(1980, 0, 1);

const PICTURE = 'Metadata/thumbnail.png';

const CONTENT_TYPES =
  '<?xml version="1.0" encoding="UTF-8"?>\n' +
  '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">' +
  '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
  '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>' +
  '<Default Extension="png" ContentType="image/png"/>' +
  '</Types>\n';

const RELATIONSHIPS =
  '<?xml version="1.0" encoding="UTF-8"?>\n' +
  '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">' +
  '<Relationship Target="/3D/3dmodel.model" Id="rel0" ' +
  'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>' +
  `<Relationship Target="/${PICTURE}" Id="rel1" ` +
  'Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail"/>' +
  '</Relationships>\n';

/** A file with its bytes. */
export interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface ThreeMfOptions {
  /** What is printed in one go; left out: the first bed of the layout. */
  readonly bed?: Bed;
  /** Said in the file beside the title. */
  readonly description?: string;
  /** Where the copies of each part stand in the craft. Given: the file holds all parts and an object of the whole. */
  readonly assembly?: (part: MadePart) => readonly Placement[];
}

/**
 * All parts as 3MF files, one for each bed, named from `stem`: `NAME.3mf` where one bed holds everything, else
 * `NAME-bed-1.3mf` and so on. The first holds every part and the assembly; what is printed from it is its bed only.
 */
export function threeMfFiles(made: Made, stem: string, assembly: ThreeMfOptions['assembly']): NamedFile[] {
  const beds = layOut(made);
  return beds.map((bed, i) => {
    const of = beds.length > 1 ? `bed ${i + 1} of ${beds.length}` : 'everything on one bed';
    const pieces = made.parts
      .map((part) => ({ part, count: bed.filter((place) => place.part === part).length }))
      .filter(({ count }) => count > 0)
      .map(({ part, count }) => `${count} × ${part.name}`);
    return {
      name: beds.length > 1 ? `${stem}-bed-${i + 1}.3mf` : `${stem}.3mf`,
      bytes: writeThreeMf(made, {
        bed,
        description: `Printable parts, ${of}: ${pieces.join(', ')}.`,
        ...(i === 0 ? { assembly } : {}),
      }),
    };
  });
}

/**
 * A 3MF file by the 3MF Core Specification 1.x (3MF Consortium): one object a part as it is to be printed, millimetres,
 * each copy on the bed a build item, the assembly an object of components that no item builds. Equal input gives equal bytes.
 */
export function writeThreeMf(made: Made, options: ThreeMfOptions = {}): Uint8Array {
  const bed = options.bed ?? layOut(made)[0] ?? [];
  const held = options.assembly ? made.parts : made.parts.filter((part) => bed.some((p) => p.part === part));
  const id = new Map(held.map((part, i) => [part, i + 1]));
  const items = bed.map(
    ({ part, x, y }) =>
      `<item objectid="${id.get(part)}" transform="1 0 0 0 1 0 0 0 1 ${number(x)} ${number(y)} 0" ` +
      `partnumber="${escapeXml(part.id)}"/>`,
  );
  const model =
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
    '<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">\n' +
    `<metadata name="Title">${escapeXml(made.name)}</metadata>\n` +
    (options.description
      ? `<metadata name="Description">${escapeXml(options.description)}</metadata>\n`
      : '') +
    '<metadata name="Application">Fanwright</metadata>\n' +
    `<resources>\n${held.map((part) => objectXml(part, id.get(part)!)).join('')}` +
    (options.assembly ? assemblyXml(made, id, options.assembly) : '') +
    `</resources>\n<build>\n${items.join('\n')}\n</build>\n</model>\n`;
  const picture = thumbnail(bed.map(({ part, x, y }) => ({ mesh: part, x, y })));
  const file = (bytes: Uint8Array, level?: 0): [Uint8Array, { mtime: Date; level?: 0 }] => [
    bytes,
    { mtime: DATE, ...(level === undefined ? {} : { level }) },
  ];
  return zipSync(
    {
      '[Content_Types].xml': file(strToU8(CONTENT_TYPES)),
      '_rels/.rels': file(strToU8(RELATIONSHIPS)),
      '3D/3dmodel.model': file(strToU8(model)),
      [PICTURE]: file(picture, 0),
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

/** The whole craft: every copy of every part where it stands. */
function assemblyXml(
  made: Made,
  id: ReadonlyMap<MadePart, number>,
  places: NonNullable<ThreeMfOptions['assembly']>,
): string {
  const components = made.parts.flatMap((part) =>
    places(part).map((m) => {
      // Rows of the specification's matrix are the columns of ours.
      const values = m.filter((_, i) => i % 4 !== 3).map(number);
      return `<component objectid="${id.get(part)}" transform="${values.join(' ')}"/>\n`;
    }),
  );
  return (
    `<object id="${made.parts.length + 1}" type="model" name="${escapeXml(made.name)}" partnumber="assembly">` +
    `<components>\n${components.join('')}</components></object>\n`
  );
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
