import { nearest } from './nearest.ts';
import { checkValue, describePath } from './path.ts';
import {
  batterySchema,
  controllerSchema,
  motorSchema,
  type Battery,
  type Controller,
  type Motor,
} from './schema.ts';
import { betweenIn, cellsOf, linesOf, plainNumber } from './table.ts';
import { missing, shorten } from './words.ts';

/** The kinds of part a user may keep a list of, and their keys in the project file. */
const SCHEMAS = { motor: motorSchema, battery: batterySchema, controller: controllerSchema } as const;
export type PartKind = keyof typeof SCHEMAS;
export const partKinds = Object.keys(SCHEMAS) as PartKind[];

/** A part of the user's own, known by its kind and name. */
export type OwnPart =
  | { readonly kind: 'motor'; readonly part: Motor }
  | { readonly kind: 'battery'; readonly part: Battery }
  | { readonly kind: 'controller'; readonly part: Controller };

/** As many lines as one table may have, and as many errors as a person can use. */
const MOST_LINES = 2000;
const MOST_LISTED = 20;

export type ReadParts =
  | { readonly ok: true; readonly parts: readonly OwnPart[] }
  | { readonly ok: false; readonly errors: readonly string[] };

const same = (a: OwnPart, b: OwnPart): boolean => a.kind === b.kind && a.part.name === b.part.name;

/** The list with a part added; a part of the same kind and name gives way to it. */
export const withPart = (list: readonly OwnPart[], part: OwnPart): readonly OwnPart[] => [
  ...list.filter((other) => !same(other, part)),
  part,
];

export const withoutPart = (list: readonly OwnPart[], part: OwnPart): readonly OwnPart[] =>
  list.filter((other) => !same(other, part));

/** A kept part taken apart again, or null where it is none: what was kept may come from another version. */
export function ownPartFrom(value: unknown): OwnPart | null {
  if (typeof value !== 'object' || value === null || !('kind' in value) || !('part' in value)) return null;
  const kind = partKinds.find((known) => known === value.kind);
  const parsed = kind && SCHEMAS[kind].safeParse(value.part);
  return parsed?.success && parsed.data.name.trim() !== '' ? ({ kind, part: parsed.data } as OwnPart) : null;
}

/**
 * Reads parts of one kind from CSV text: a line of names, which are the keys of the project file with their units
 * (`name,mass_g,...`), then a line for each part. Comma, semicolon or tab between; with the last two a decimal comma is
 * taken. Keys with a default may be left out or empty. Total: every error says its line and column.
 */
export function readPartsCsv(kind: PartKind, text: string): ReadParts {
  const lines = [...linesOf(text)];
  if (lines.length < 2)
    return refused(
      `The table has ${lines.length === 1 ? 'one line' : 'no lines'}; it needs a line of names, such as name and mass_g, and one for each ${kind}.`,
    );
  if (lines.length > MOST_LINES)
    return refused(`The table has ${lines.length} lines; at most ${MOST_LINES} are taken.`);
  const head = lines[0].text;
  const between = betweenIn(head);
  const header = cellsOf(head, between);
  const keys = Object.keys(SCHEMAS[kind].shape);
  const errors: string[] = [];
  for (const [i, name] of header.entries()) {
    const meant = nearest(name, keys);
    const hint = meant ? ` ${meant} looks like it.` : '';
    if (!keys.includes(name))
      errors.push(
        `Line ${lines[0].number}, column ${i + 1}: "${shorten(name, 40)}" is no key of a ${kind}.${hint} The keys are ${keys.join(', ')}.`,
      );
    else if (header.indexOf(name) !== i)
      errors.push(`Line ${lines[0].number}, column ${i + 1}: ${name} stands there a second time.`);
  }
  for (const key of keys) {
    const field = describePath(`${kind}.${key}`);
    if (field && field.fallback === undefined && !header.includes(key))
      errors.push(`Line ${lines[0].number}: ${missing(field).message}`);
  }
  if (errors.length > 0) return refused(...errors);

  let parts: readonly OwnPart[] = [];
  for (const { text: line, number } of lines.slice(1)) {
    const row = cellsOf(line, between);
    const before = errors.length;
    if (row.length > header.length)
      errors.push(
        `Line ${number} has ${row.length} columns; the line of names has ${header.length}. A comma inside a name needs quotes about it.`,
      );
    const part: Record<string, unknown> = {};
    for (const [i, key] of header.entries()) {
      const value = valueOf(key, row[i] ?? '', kind, between);
      if (value === undefined) continue;
      const wrong = checkValue(`${kind}.${key}`, value);
      if (wrong) errors.push(`Line ${number}, column ${i + 1}: ${wrong.message}`);
      part[key] = value;
    }
    if (errors.length > before) continue;
    const read = ownPartFrom({ kind, part });
    if (read) parts = withPart(parts, read);
    else errors.push(`Line ${number}: the ${kind} has no name.`);
  }
  return errors.length > 0 ? refused(...errors) : { ok: true, parts };
}

function refused(...errors: readonly string[]): ReadParts {
  const rest = errors.length - MOST_LISTED;
  return {
    ok: false,
    errors: rest > 0 ? [...errors.slice(0, MOST_LISTED), `And ${rest} more of the kind.`] : errors,
  };
}

/** undefined: left empty where a default stands in. A number that cannot be read stays text, for the message. */
function valueOf(key: string, text: string, kind: PartKind, between: string): string | number | undefined {
  const field = describePath(`${kind}.${key}`);
  if (text === '' && field?.fallback !== undefined) return undefined;
  if (field?.kind !== 'number' && field?.kind !== 'whole number') return text;
  const number = plainNumber(between === ',' ? text : text.replace(',', '.'));
  return Number.isNaN(number) ? text : number;
}
