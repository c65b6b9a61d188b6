import type { FieldDescription } from './tree.ts';

/** Something in a project file that cannot be taken, where it stands, in one plain sentence or two. */
export interface FieldError {
  /** Keys and list places joined by dots, as in `fan.blade.0.angle_deg`; '' for the file as a whole. */
  readonly path: string;
  readonly message: string;
}

/** What would be accepted at a place: "10 to 1500 mm". With `bare` the reader already knows a number is meant. */
export function acceptedAt(field: FieldDescription, bare = false): string {
  return acceptedWords(field, bare) + (field.nullable ? ', or null for none' : '');
}

function acceptedWords(field: FieldDescription, bare: boolean): string {
  switch (field.kind) {
    case 'number':
    case 'whole number': {
      const noun = field.kind === 'whole number' ? 'a whole number' : 'a number';
      if (field.min === undefined || field.max === undefined) return noun;
      const range = `${field.min} to ${field.max}${field.unit === '°' ? '°' : field.unit && ' ' + field.unit}`;
      return bare && field.kind === 'number' ? range : `${noun} from ${range}`;
    }
    case 'choice':
      return oneOf(field.options ?? []);
    case 'yes or no':
      return 'true or false';
    case 'text':
      return `text in quotes${field.min ? `, not empty` : ''}${field.max ? `, at most ${field.max} characters` : ''}`;
    case 'list': {
      if (!field.min && !field.max) return 'a list in square brackets';
      return `a list of ${field.min ?? 0} to ${field.max ?? 'any number of'} entries`;
    }
    case 'group':
      return 'a group in braces';
    default:
      return 'a value';
  }
}

/** `one of "ring", "row", "two rows"` */
export const oneOf = (options: readonly string[]): string =>
  options.length === 1 ? options[0] : `one of ${options.map((o) => `"${o}"`).join(', ')}`;

/** What was found, for a sentence: `-3`, `the text "76"`, `a list`. */
export function foundAs(value: unknown): string {
  if (typeof value === 'string') return value === '' ? 'an empty text' : `the text "${shorten(value, 40)}"`;
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group';
  return String(value);
}

/** "fan.tipDiameter_mm is -3; it must be 10 to 1500 mm." */
export function refusal(field: FieldDescription, value: unknown): FieldError {
  const { path } = field;
  if (field.kind === 'list' && Array.isArray(value))
    return {
      path,
      message: `${path} has ${value.length} ${value.length === 1 ? 'entry' : 'entries'}; it must be ${acceptedAt(field)}.`,
    };
  if (field.kind === 'text' && typeof value === 'string' && value.length > 40)
    return { path, message: `${path} is ${value.length} characters long; it must be ${acceptedAt(field)}.` };
  if (field.kind === 'choice' && typeof value === 'string')
    return { path, message: `${path} is "${shorten(value, 40)}"; it must be ${acceptedAt(field)}.` };
  return {
    path,
    message: `${path} is ${foundAs(value)}; it must be ${acceptedAt(field, typeof value === 'number')}.`,
  };
}

/** "fan.tipDiameter_mm is missing; it must be a number from 10 to 1500 mm. Diameter over the blade tips." */
export function missing(field: FieldDescription, slip?: string): FieldError {
  const keys = field.kind === 'group' && field.keys ? ` with ${listed(field.keys)}` : '';
  const help = field.help ? ` ${field.help}` : '';
  const hint = slip === undefined ? '' : ` Is "${shorten(slip, 60)}" beside it a slip for it?`;
  return {
    path: field.path,
    message: `${field.path} is missing; it must be ${acceptedAt(field)}${keys}.${help}${hint}`,
  };
}

const listed = (keys: readonly string[]): string =>
  keys.length < 2 ? keys.join() : `${keys.slice(0, -1).join(', ')} and ${keys.at(-1)}`;

export const shorten = (text: string, length: number): string =>
  text.length > length ? text.slice(0, length) + '…' : text;
