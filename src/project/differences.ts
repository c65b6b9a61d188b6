/** One value that two designs do not share. `undefined`: the one has no such place. */
export interface Difference {
  readonly path: string;
  readonly first: unknown;
  readonly second: unknown;
}

/** Every leaf at which two pieces of a project differ, in the order of the first; lists are compared entry by entry. */
export function differences(first: unknown, second: unknown, path = ''): Difference[] {
  if (Object.is(first, second)) return [];
  if (isGroup(first) && isGroup(second) && Array.isArray(first) === Array.isArray(second)) {
    const keys = [...new Set([...Object.keys(first), ...Object.keys(second)])];
    return keys.flatMap((key) =>
      differences(valueAt(first, key), valueAt(second, key), path === '' ? key : `${path}.${key}`),
    );
  }
  if (isGroup(first) && second === undefined) return sidesOf(first, path, true);
  if (isGroup(second) && first === undefined) return sidesOf(second, path, false);
  return [{ path, first, second }];
}

type Group = Readonly<Record<string, unknown>>;
const isGroup = (value: unknown): value is Group => typeof value === 'object' && value !== null;
const valueAt = (group: Group, key: string) => (Object.hasOwn(group, key) ? group[key] : undefined);

/** The leaves of what only one side has. */
const sidesOf = (group: Group, path: string, isFirst: boolean): Difference[] =>
  Object.entries(group).flatMap(([key, value]) =>
    differences(isFirst ? value : undefined, isFirst ? undefined : value, `${path}.${key}`),
  );
