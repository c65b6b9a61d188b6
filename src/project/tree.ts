import { z } from 'zod';
import { fieldMetas } from './fields.ts';
import { projectSchema } from './schema.ts';

/** What is known of one place in the project file, for messages, help texts and input fields. */
export interface FieldDescription {
  readonly path: string;
  readonly kind: 'number' | 'whole number' | 'choice' | 'yes or no' | 'text' | 'list' | 'group' | 'anything';
  readonly help: string;
  /** Unit as people write it; '' for a plain number. */
  readonly unit: string;
  readonly min?: number;
  readonly max?: number;
  readonly typical?: string;
  /** The values a choice may take. */
  readonly options?: readonly string[];
  /** Keys of a group. */
  readonly keys?: readonly string[];
  /** Whether null stands for "not given". */
  readonly nullable: boolean;
  /** What a missing key is read as; undefined where the key must be there. */
  readonly fallback?: unknown;
}

const UNITS: Readonly<Record<string, string>> = {
  mm: 'mm',
  m: 'm',
  g: 'g',
  deg: '°',
  ratio: '',
  rpmPerV: 'rpm/V',
  rpm: 'rpm',
  mohm: 'mΩ',
  S: 'S',
  A: 'A',
  V: 'V',
  W: 'W',
  N: 'N',
  mAh: 'mAh',
  C: '°C',
  min: 'min',
  s: 's',
  dBA: 'dB(A)',
  kgpm3: 'kg/m³',
  mmps: 'mm/s',
  gpm: 'g/m',
  GPa: 'GPa',
  MPa: 'MPa',
  mps: 'm/s',
  mm3ps: 'mm³/s',
  hPa: 'hPa',
  Nm: 'N m',
};

/** The unit a key carries in its ending: `tipDiameter_mm` is in mm. */
export function unitOfKey(key: string): string {
  if (key === 'dischargeLimit_C') return 'C';
  const ending = key.slice(key.lastIndexOf('_') + 1);
  return key.includes('_') && Object.hasOwn(UNITS, ending) ? UNITS[ending] : '';
}

interface Unwrapped {
  readonly schema: z.core.$ZodType;
  readonly nullable: boolean;
  readonly fallback?: unknown;
}

/** Takes defaults, nullables and optionals off a schema. */
function unwrap(schema: z.core.$ZodType): Unwrapped {
  let nullable = false;
  let fallback: unknown;
  for (;;) {
    if (schema instanceof z.ZodDefault) {
      fallback = schema.def.defaultValue;
      schema = schema.def.innerType;
    } else if (schema instanceof z.ZodPrefault) {
      schema = schema.def.innerType;
    } else if (schema instanceof z.ZodNullable) {
      nullable = true;
      schema = schema.def.innerType;
    } else if (schema instanceof z.ZodOptional) {
      schema = schema.def.innerType;
    } else return { schema, nullable, fallback };
  }
}

/** The schema of the group or list itself at a place, or null where the file has no such place. */
export function schemaAt(
  path: readonly PropertyKey[],
  root: z.core.$ZodType = projectSchema,
): z.core.$ZodType | null {
  let schema: z.core.$ZodType = root;
  for (const key of path) {
    const bare = unwrap(schema).schema;
    if (bare instanceof z.ZodObject && typeof key === 'string' && Object.hasOwn(bare.shape, key))
      schema = bare.shape[key];
    else if (bare instanceof z.ZodArray && isIndex(key)) schema = bare.element;
    else return null;
  }
  return schema;
}

/** The keys a group knows, in the order they are written; null where the place is no group. */
export function keysOf(schema: z.core.$ZodType): readonly string[] | null {
  const bare = unwrap(schema).schema;
  return bare instanceof z.ZodObject ? Object.keys(bare.shape) : null;
}

/** The schema of one key of a group or entry of a list. */
export function childOf(schema: z.core.$ZodType, key: string | number): z.core.$ZodType | null {
  return schemaAt([key], schema);
}

/** What the schema says of the place at `path`. */
export function describeSchema(schema: z.core.$ZodType, path: readonly PropertyKey[]): FieldDescription {
  const { schema: bare, nullable, fallback } = unwrap(schema);
  const key = String(path.at(-1) ?? '');
  const meta = fieldMetas.get(bare as z.ZodNumber);
  const help = meta?.help ?? describedAs(schema) ?? describedAs(bare) ?? '';
  const common = { path: joinPath(path), help, unit: unitOfKey(key), nullable, fallback };
  if (bare instanceof z.ZodNumber) {
    const whole = bare.format === 'safeint';
    return {
      ...common,
      kind: whole ? 'whole number' : 'number',
      min: meta?.min,
      max: meta?.max,
      typical: meta?.typical,
    };
  }
  if (bare instanceof z.ZodEnum) return { ...common, kind: 'choice', options: bare.options.map(String) };
  if (bare instanceof z.ZodLiteral)
    return { ...common, kind: 'choice', options: [...bare.values].map(String) };
  if (bare instanceof z.ZodBoolean) return { ...common, kind: 'yes or no' };
  if (bare instanceof z.ZodString)
    return { ...common, kind: 'text', min: bare.minLength ?? undefined, max: bare.maxLength ?? undefined };
  if (bare instanceof z.ZodArray) {
    const [min, max] = lengthsOf(bare);
    return { ...common, kind: 'list', min, max };
  }
  if (bare instanceof z.ZodObject) return { ...common, kind: 'group', keys: Object.keys(bare.shape) };
  return { ...common, kind: 'anything' };
}

function describedAs(schema: z.core.$ZodType): string | undefined {
  return z.globalRegistry.get(schema)?.description;
}

function lengthsOf(list: z.ZodArray): [number | undefined, number | undefined] {
  let min: number | undefined;
  let max: number | undefined;
  for (const { _zod: check } of list.def.checks ?? []) {
    const def = check.def as { check: string; minimum?: number; maximum?: number };
    if (def.check === 'min_length') min = def.minimum;
    if (def.check === 'max_length') max = def.maximum;
  }
  return [min, max];
}

const isIndex = (key: PropertyKey): boolean =>
  typeof key === 'number' || (typeof key === 'string' && /^(0|[1-9]\d{0,8})$/.test(key));

/** `fan.blade.0.angle_deg` from its keys. */
export const joinPath = (path: readonly PropertyKey[]): string => path.map(String).join('.');
