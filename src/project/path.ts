import { nearest } from './nearest.ts';
import { projectSchema, type Project } from './schema.ts';
import { childOf, describeSchema, joinPath, keysOf, schemaAt, type FieldDescription } from './tree.ts';
import { acceptedAt, refusal, shorten, type FieldError } from './words.ts';

export type Path = string | readonly PropertyKey[];

export const keysOfPath = (path: Path): readonly PropertyKey[] =>
  typeof path === 'string' ? path.split('.') : path;

/** The value at a path such as `fan.blade.0.angle_deg`; undefined where there is none. */
export function getPath(from: unknown, path: Path): unknown {
  let value: unknown = from;
  for (const key of keysOfPath(path)) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

/** A copy with another value at a place that exists; everything off the path is shared. Throws where there is none. */
export function setPath<T>(from: T, path: Path, value: unknown): T {
  const keys = keysOfPath(path);
  if (keys.length === 0) return value as T;
  const [key, ...rest] = keys;
  if (typeof from !== 'object' || from === null || !Object.hasOwn(from, key))
    throw new Error(`setPath found nothing at "${joinPath(keys)}"`);
  const inner = setPath((from as Record<PropertyKey, unknown>)[key], rest, value);
  if (Array.isArray(from)) return from.with(Number(key), inner) as T;
  return { ...from, [key]: inner };
}

/** What the project file knows of a place: help, unit, range; null where it has no such place. */
export function describePath(path: Path): FieldDescription | null {
  const keys = keysOfPath(path);
  const schema = schemaAt(keys);
  return schema && describeSchema(schema, keys);
}

/** Null when `value` may stand at `path`; otherwise the sentence that says why not. */
export function checkValue(path: Path, value: unknown): FieldError | null {
  const keys = keysOfPath(path);
  const schema = schemaAt(keys);
  if (!schema) return unknownPath(joinPath(keys));
  const parsed = projectSchemaPart(schema, value);
  return parsed ? null : refusal(describeSchema(schema, keys), value);
}

/** Every place that holds one value, with lists shown by their first entry, in the order of the file. */
export function allPaths(): readonly string[] {
  const paths: string[] = [];
  const walk = (schema: NonNullable<ReturnType<typeof schemaAt>>, path: PropertyKey[]) => {
    const keys = keysOf(schema);
    if (keys) for (const key of keys) walk(childOf(schema, key)!, [...path, key]);
    else {
      const entry = childOf(schema, 0);
      if (entry && describeSchema(entry, []).kind !== 'anything') walk(entry, [...path, 0]);
      else if (!entry) paths.push(joinPath(path));
    }
  };
  walk(projectSchema, []);
  return paths;
}

export type SetResult =
  { readonly ok: true; readonly project: Project } | { readonly ok: false; readonly error: FieldError };

/** Sets a place from typed text, as in `fan.tipDiameter_mm` and `"80"`, or says what would be accepted. */
export function setText(project: Project, path: string, text: string): SetResult {
  const refuse = (message: string): SetResult => ({ ok: false, error: { path, message } });
  const field = describePath(path);
  if (!field) return { ok: false, error: unknownPath(path) };
  if (path === 'schemaVersion')
    return refuse('schemaVersion tells the format of the file and cannot be set.');
  if (field.kind === 'group')
    return refuse(`${path} is a group; set one of its keys, as in ${path}.${field.keys?.[0]}.`);
  if (field.kind === 'anything') return refuse(`${path} holds raw readings and cannot be set this way.`);
  if (field.kind === 'list')
    return refuse(`${path} is a list; set a value inside one of its entries, as in ${insideList(path)}.`);
  const short = shortList(project, path);
  if (short) return refuse(short);
  const value = valueFromText(field, text);
  if (value === undefined)
    return refuse(
      `${path} is ${text.trim() === '' ? 'empty' : `"${shorten(text, 40)}"`}; it must be ${acceptedAt(field)}.`,
    );
  const error = checkValue(path, value);
  if (error) return { ok: false, error };
  return { ok: true, project: setPath(project, path, value) };
}

function valueFromText(field: FieldDescription, text: string): unknown {
  const bare = text.trim();
  if (field.nullable && (bare === 'null' || bare === 'none')) return null;
  if (field.kind === 'number' || field.kind === 'whole number')
    return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(bare) ? Number(bare) : undefined;
  if (field.kind === 'yes or no')
    return bare === 'true' || bare === 'yes' ? true : bare === 'false' || bare === 'no' ? false : undefined;
  return text;
}

/** A sentence when the path names an entry that its list does not have. */
function shortList(project: Project, path: string): string | null {
  const keys = keysOfPath(path);
  for (let i = 1; i < keys.length; i++) {
    const list = getPath(project, keys.slice(0, i));
    if (!Array.isArray(list) || Number(keys[i]) < list.length) continue;
    const where = joinPath(keys.slice(0, i));
    if (list.length === 0) return `${path} is not there: ${where} is an empty list.`;
    return `${path} is not there: ${where} has ${list.length} ${list.length === 1 ? 'entry, number 0' : `entries, numbered 0 to ${list.length - 1}`}.`;
  }
  return null;
}

function insideList(path: string): string {
  const general = path.replace(/\.\d+(?=\.)/g, '.0');
  const inside = allPaths().find((p) => p.startsWith(general + '.'));
  return inside ? path + inside.slice(general.length) : `${path}.0`;
}

/** "fan.tipDiamter_mm is not in a project file; did you mean fan.tipDiameter_mm?" */
export function unknownPath(path: string): FieldError {
  const paths = allPaths();
  const general = path.replace(/\.\d+(?=\.|$)/g, '.0');
  const last = (p: string) => p.slice(p.lastIndexOf('.') + 1);
  // A number in a list has no name of its own to be near to.
  const named = paths.filter((p) => !/\.\d+$/.test(p));
  const same = named.filter((p) => last(p) === last(path) && !p.startsWith('builds.'));
  const meant = same.length
    ? same
    : [nearest(general, paths) ?? nearestLast(last(path), named)].filter((p) => p !== null);
  const hint = meant.length ? `; did you mean ${meant.join(' or ')}?` : '.';
  return { path, message: `${shorten(path, 80)} is not a place in a project file${hint}` };
}

function nearestLast(key: string, paths: readonly string[]): string | null {
  const last = (p: string) => p.slice(p.lastIndexOf('.') + 1);
  const meant = nearest(key, paths.map(last));
  return meant === null ? null : (paths.find((p) => last(p) === meant) ?? null);
}

function projectSchemaPart(schema: NonNullable<ReturnType<typeof schemaAt>>, value: unknown): boolean {
  return (schema as typeof projectSchema).safeParse(value).success;
}
