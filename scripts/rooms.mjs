/** The rooms of src/, in order: each may import only from rooms above it (and from its own). */
export const rooms = [
  'quantities',
  'numerics',
  'project',
  'shape',
  'print',
  'air',
  'drive',
  'craft',
  'strength',
  'sound',
  'balance',
  'assess',
  'make',
  'study',
  'bench',
  'report',
];

/** The three faces stand on the rooms and never on each other. */
export const faces = ['cli', 'app'];

/** Packages that only the named rooms may import. */
export const keptIn = {
  'manifold-3d': ['make'],
  fflate: ['make'],
  'replicad-opencascadejs': ['make'],
  react: ['app'],
  'react-dom': ['app'],
  three: ['app'],
  zustand: ['app'],
  idb: ['app'],
  comlink: ['app'],
  '@observablehq/plot': ['app', 'report'],
  commander: ['cli'],
};
