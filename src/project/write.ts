import { projectSchema, type Project } from './schema.ts';
import { childOf, keysOf, type schemaAt } from './tree.ts';

type Schema = NonNullable<ReturnType<typeof schemaAt>>;

/** A list entry without lists or groups inside goes on one line up to this width, so that a blade reads as a table. */
const LINE_WIDTH = 110;

/**
 * The text of a project file: JSON, two spaces of indent, known keys in the order of the schema and unknown ones behind
 * them, a newline at the end. Reading it back gives the same project. Throws on a number JSON cannot hold (NaN).
 */
export function writeProject(project: Project): string {
  return format(project, projectSchema, '', 0, '') + '\n';
}

function format(value: unknown, schema: Schema | null, indent: string, used: number, path: string): string {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new Error(`writeProject cannot write ${path}: ${value} is not a finite number`);
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const inner = indent + '  ';
  if (Array.isArray(value)) {
    const element = schema && childOf(schema, 0);
    const parts = value.map((entry, i) => {
      const text = isFlat(entry) ? oneLine(entry, element, `${path}.${i}`) : '';
      return text && inner.length + text.length < LINE_WIDTH
        ? text
        : format(entry ?? null, element, inner, inner.length, `${path}.${i}`);
    });
    if (parts.length === 0) return '[]';
    if (value.every(isScalar)) {
      const line = `[${parts.join(', ')}]`;
      if (used + line.length < LINE_WIDTH) return line;
    }
    return `[\n${parts.map((p) => inner + p).join(',\n')}\n${indent}]`;
  }
  const lines = entriesInOrder(value, schema).map(([key, entry]) => {
    const start = `${inner}${JSON.stringify(key)}: `;
    return (
      start +
      format(entry, schema && childOf(schema, key), inner, start.length, path ? `${path}.${key}` : key)
    );
  });
  return lines.length === 0 ? '{}' : `{\n${lines.join(',\n')}\n${indent}}`;
}

function oneLine(group: object, schema: Schema | null, path: string): string {
  const parts = entriesInOrder(group, schema).map(
    ([key, entry]) => `${JSON.stringify(key)}: ${format(entry, null, '', 0, `${path}.${key}`)}`,
  );
  return parts.length === 0 ? '{}' : `{ ${parts.join(', ')} }`;
}

function entriesInOrder(group: object, schema: Schema | null): [string, unknown][] {
  const known = (schema && keysOf(schema)) ?? [];
  const rank = new Map(known.map((key, i) => [key, i]));
  return Object.entries(group)
    .filter(([, value]) => value !== undefined)
    .sort(([a], [b]) => (rank.get(a) ?? known.length) - (rank.get(b) ?? known.length));
}

const isScalar = (value: unknown): boolean => typeof value !== 'object' || value === null;
const isFlat = (value: unknown): value is object =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  Object.values(value).every(isScalar);
