import { placeOf, parseJson } from './json.ts';
import { migrate, type RawGroup } from './migrate.ts';
import { nearest } from './nearest.ts';
import { getPath } from './path.ts';
import { projectSchema, SCHEMA_VERSION, type Project } from './schema.ts';
import { childOf, describeSchema, joinPath, keysOf, schemaAt } from './tree.ts';
import { foundAs, missing, refusal, shorten, type FieldError } from './words.ts';

/** Larger files are refused before they are taken apart. */
const LARGEST_FILE_CHARACTERS = 64_000_000;

/** As many errors or notes as a person can use; the rest is counted. */
const MOST_LISTED = 100;

/** Something odd that does no harm: a key this program does not know. It is kept and written back. */
export interface ReadNote {
  readonly path: string;
  readonly message: string;
  /** The known key it looks like a slip for. */
  readonly meant?: string;
}

export type ReadResult =
  | { readonly ok: true; readonly project: Project; readonly notes: readonly ReadNote[] }
  | { readonly ok: false; readonly errors: readonly FieldError[] };

/**
 * Reads a project file from its text or its bytes (UTF-8). Total: anything gives a project or a list of located errors,
 * never a throw. Missing keys that have a default get it; unknown keys are kept and noted.
 */
export function readProject(input: string | Uint8Array): ReadResult {
  const text = typeof input === 'string' ? { ok: true as const, text: input } : decode(input);
  if (!text.ok) return fileError(text.message);
  const body = text.text.startsWith('\ufeff') ? text.text.slice(1) : text.text;
  if (body.length > LARGEST_FILE_CHARACTERS)
    return fileError(
      `The file is ${Math.round(body.length / 1e6)} million characters long; a project file has at most ${LARGEST_FILE_CHARACTERS / 1e6} million.`,
    );
  if (body.trim() === '') return fileError('The file is empty; a project file is JSON text.');
  const json = parseJson(body);
  if (!json.ok)
    return fileError(
      `The file cannot be read as JSON: line ${json.line}, column ${json.column}: ${json.message}.`,
    );
  return readProjectValue(json.value);
}

/** Reads a project from JSON already taken apart, as `readProject` does. */
export function readProjectValue(value: unknown): ReadResult {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return fileError(`The file holds ${foundAs(value)}; a project file is one group in braces.`);
  const brought = migrate(value as RawGroup, SCHEMA_VERSION);
  if (!brought.ok) return { ok: false, errors: [brought.error] };
  const parsed = projectSchema.safeParse(brought.file);
  if (!parsed.success) {
    const errors = new Map<string, FieldError>();
    for (const issue of parsed.error.issues) {
      const error = sentenceFor(issue, brought.file);
      if (!errors.has(error.path)) errors.set(error.path, error);
    }
    return { ok: false, errors: capped([...errors.values()], 'error') };
  }
  const errors = idErrors(parsed.data);
  if (errors.length) return { ok: false, errors: capped(errors, 'error') };
  const notes: ReadNote[] = [];
  noteUnknown(projectSchema, parsed.data, [], notes);
  return { ok: true, project: parsed.data, notes: capped(notes, 'note') };
}

function sentenceFor(issue: { path: PropertyKey[]; message: string }, file: RawGroup): FieldError {
  const { path } = issue;
  const schema = schemaAt(path);
  const value = getPath(file, path);
  if (!schema) return { path: joinPath(path), message: `${joinPath(path)}: ${issue.message}.` };
  const field = describeSchema(schema, path);
  if (value !== undefined) return refusal(field, value);
  const beside = getPath(file, path.slice(0, -1));
  const known = keysOf(schemaAt(path.slice(0, -1)) ?? schema) ?? [];
  const strangers = isGroup(beside) ? Object.keys(beside).filter((key) => !known.includes(key)) : [];
  const key = String(path.at(-1));
  return missing(
    field,
    strangers.find((stranger) => nearest(stranger, known) === key),
  );
}

function idErrors(project: Project): FieldError[] {
  const errors: FieldError[] = [];
  const seen = new Map<string, number>();
  project.builds.forEach(({ id }, i) => {
    const path = `builds.${i}.id`;
    const earlier = seen.get(id);
    if (earlier !== undefined)
      errors.push({
        path,
        message: `${path} is "${id}", which builds.${earlier}.id is too; each build needs its own id.`,
      });
    else if (id !== id.trim() || /\p{Cc}/u.test(id))
      errors.push({
        path,
        message: `${path} begins or ends with a space or holds a control character; use letters, digits, spaces and signs.`,
      });
    else seen.set(id, i);
  });
  return errors;
}

function noteUnknown(
  schema: Parameters<typeof keysOf>[0],
  value: unknown,
  path: PropertyKey[],
  notes: ReadNote[],
) {
  if (Array.isArray(value)) {
    const element = childOf(schema, 0);
    if (element) value.forEach((entry, i) => noteUnknown(element, entry, [...path, i], notes));
    return;
  }
  const known = keysOf(schema);
  if (!known || !isGroup(value)) return;
  for (const [key, inner] of Object.entries(value)) {
    const child = childOf(schema, key);
    const here = [...path, key];
    if (child) noteUnknown(child, inner, here, notes);
    else notes.push(unknownNote(joinPath(here), key, known));
  }
}

function unknownNote(path: string, key: string, known: readonly string[]): ReadNote {
  const meant = nearest(key, known);
  const message = `${shorten(path, 120)} is not a key this program knows; it is kept as it is.`;
  return meant === null ? { path, message } : { path, message: `${message} Did you mean ${meant}?`, meant };
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const fileError = (message: string): ReadResult => ({ ok: false, errors: [{ path: '', message }] });

function capped<T extends FieldError | ReadNote>(
  list: readonly T[],
  what: string,
): readonly (T | FieldError)[] {
  if (list.length <= MOST_LISTED) return list;
  const more = list.length - MOST_LISTED;
  return [
    ...list.slice(0, MOST_LISTED),
    {
      path: '',
      message: `There ${more === 1 ? 'is' : 'are'} ${more} more ${what}${more === 1 ? '' : 's'} like these.`,
    },
  ];
}

function decode(bytes: Uint8Array): { ok: true; text: string } | { ok: false; message: string } {
  const wide =
    (bytes[0] === 0xff && bytes[1] === 0xfe) ||
    (bytes[0] === 0xfe && bytes[1] === 0xff) ||
    (bytes.length >= 2 && (bytes[0] === 0) !== (bytes[1] === 0));
  if (wide) return { ok: false, message: 'The file is UTF-16 text; save it again as UTF-8.' };
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    const loose = new TextDecoder('utf-8').decode(bytes);
    const { line, column } = placeOf(loose, Math.max(0, loose.indexOf('\ufffd')));
    return {
      ok: false,
      message: `The file is not UTF-8 text (first odd byte: line ${line}, column ${column}); a project file is JSON text saved as UTF-8.`,
    };
  }
}
