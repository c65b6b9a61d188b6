import { ductKinds } from './duct-kinds.ts';
import { frameKinds } from './frame-kinds.ts';
import type { Kind } from './kind.ts';
import { rotorKinds } from './rotor-kinds.ts';

/** Every kind of part there is, in the order in which they are listed. A new kind is one more entry. */
export const kinds: readonly Kind[] = [...rotorKinds, ...ductKinds, ...frameKinds];
