import { create } from 'zustand';
import { ownPartFrom, partKinds, type OwnPart, type PartKind } from '../../project/parts.ts';
import { tell } from '../state/actions.ts';
import { fetchKept, keepBeside } from '../state/autosave.ts';

const KEY = 'own parts';

/** The user's own parts, kept on this machine beside the work. */
export const useOwnParts = create<{ readonly parts: readonly OwnPart[] }>()(() => ({ parts: [] }));

export const isOwnKind = (group: string): group is PartKind => partKinds.some((kind) => kind === group);

async function kept(): Promise<readonly unknown[]> {
  const list = await fetchKept(KEY);
  return Array.isArray(list) ? list : [];
}

const readable = (list: readonly unknown[]): OwnPart[] => list.flatMap((one) => ownPartFrom(one) ?? []);

export async function loadOwnParts(): Promise<void> {
  try {
    useOwnParts.setState({ parts: readable(await kept()) });
  } catch {
    // A closed storage is said once, where the work itself is restored.
  }
}

/** Changes the list as it is kept now: another tab may have added to it. What this version cannot read stays in it. */
export async function changeOwnParts(
  change: (list: readonly OwnPart[]) => readonly OwnPart[],
): Promise<boolean> {
  try {
    const list = await kept();
    const parts = change(readable(list));
    await keepBeside(KEY, [...list.filter((one) => !ownPartFrom(one)), ...parts]);
    useOwnParts.setState({ parts });
    return true;
  } catch {
    tell(
      'Your parts could not be kept: the storage of this browser is closed or full. The project is as it was.',
    );
    return false;
  }
}
