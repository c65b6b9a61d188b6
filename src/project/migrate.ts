import type { FieldError } from './words.ts';
import { foundAs } from './words.ts';

export type RawGroup = Readonly<Record<string, unknown>>;

/** Turns a file of one version into one of the next. Must keep every key it does not know. */
export type Migration = (file: RawGroup) => RawGroup;

/** `MIGRATIONS[n]` reads version n and gives version n + 1. Version 1 is the first, so there are none yet. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};

/** Brings a raw file up to `newest`, one version at a time, or says why it cannot be read. */
export function migrate(
  file: RawGroup,
  newest: number,
  migrations: Readonly<Record<number, Migration>> = MIGRATIONS,
): { readonly ok: true; readonly file: RawGroup } | { readonly ok: false; readonly error: FieldError } {
  const version = file.schemaVersion;
  const refuse = (message: string) => ({ ok: false as const, error: { path: 'schemaVersion', message } });
  if (version === undefined)
    return refuse(
      `schemaVersion is missing; a project file says which version of the format it is in, as in "schemaVersion": ${newest}.`,
    );
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return refuse(
      `schemaVersion is ${foundAs(version)}; it must be ${newest === 1 ? 'the number 1' : `a whole number from 1 to ${newest}`}.`,
    );
  if (version > newest)
    return refuse(
      `The file was written by a newer Fanwright (version ${version}; this one reads up to ${newest}); the file was not touched.`,
    );
  for (let at = version; at < newest; at++) {
    if (!Object.hasOwn(migrations, at))
      return refuse(`This Fanwright has no way to read version ${at} any more.`);
    file = { ...migrations[at](file), schemaVersion: at + 1 };
  }
  return { ok: true, file };
}
