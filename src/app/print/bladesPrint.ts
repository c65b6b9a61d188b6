/** What the ways to print a blade apart are called. */
export const BLADES_PRINT = {
  lying: 'lying, layers along the blade',
  standing: 'standing on the key, layers across it',
  'as laid': 'as laid under “Layer by layer”',
};
