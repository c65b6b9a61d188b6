import { z } from 'zod';

/** What the page, the help texts and the error messages know of a number in the project file. */
export interface FieldMeta {
  readonly help: string;
  readonly min: number;
  readonly max: number;
  readonly typical?: string;
}

/** Every number's meta, found by its schema (read through `fieldMeta`). */
export const fieldMetas = z.registry<FieldMeta>();

/** A finite number from `min` to `max` (inclusive) with a sentence of help. The unit is the key's ending. */
export function quantity(min: number, max: number, help: string, typical?: string) {
  const schema = z.number().min(min).max(max);
  fieldMetas.add(schema, { help, min, max, typical });
  return schema;
}

/** A whole number from `min` to `max` (inclusive) with a sentence of help. */
export function count(min: number, max: number, help: string, typical?: string) {
  const schema = z.int().min(min).max(max);
  fieldMetas.add(schema, { help, min, max, typical });
  return schema;
}
