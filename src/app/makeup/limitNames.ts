import type { LimitKind } from '../../drive/limit-types.ts';

/** Limits in few words, for tables. */
export const SHORT_LIMITS: Readonly<Record<LimitKind, string>> = {
  'motor continuous': 'motor, for minutes',
  'motor burst': 'motor, for seconds',
  'winding temperature': 'winding (estimate)',
  controller: 'controller',
  'cell current': 'battery',
  'rotor strength': 'rotor strength',
};
