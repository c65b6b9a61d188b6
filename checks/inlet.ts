import { inletLossFree, inletLossInWall } from '../src/air/inlet.ts';
import type { Topic } from './check.ts';

const HANDBOOK =
  'Idelchik, Handbook of Hydraulic Resistance, bellmouth in a wall; the same figures in Roberson and Crowe, Engineering Fluid Mechanics, and in ASHRAE Handbook of Fundamentals 1977.';

/** Lip radius over throat diameter, loss on the throat's velocity head. */
const IN_WALL = [
  [0, 0.5],
  [0.01, 0.44],
  [0.02, 0.37],
  [0.03, 0.31],
  [0.04, 0.26],
  [0.05, 0.22],
  [0.06, 0.2],
  [0.08, 0.15],
  [0.1, 0.12],
  [0.12, 0.09],
  [0.16, 0.06],
  [0.2, 0.03],
] as const;

export const inletTopic: Topic = {
  id: 'inlet',
  title: 'Inlet lip',
  intro:
    'The loss of a rounded inlet. The model is built on this very table, so the first check guards the figures against slips and proves nothing more; the free-standing lip is the one a duct in the open has.',
  checks: [
    {
      id: 'inlet-in-wall',
      title: 'Loss coefficient, lip in a wall',
      unit: '',
      source: HANDBOOK,
      status: 'read',
      points: () =>
        IN_WALL.map(([ratio, loss]) => ({
          at: `radius / diameter ${ratio.toFixed(2)}`,
          ours: inletLossInWall(ratio),
          theirs: loss,
        })),
      target: { absolute: 1e-9 },
    },
    {
      id: 'inlet-free',
      title: 'Loss coefficient, lip standing free',
      unit: '',
      source:
        'Idelchik, Handbook of Hydraulic Resistance, thin-edged inlet away from a wall, and where it meets the inlet in a wall.',
      status: 'from memory',
      points: () => [
        { at: 'radius / diameter 0', ours: inletLossFree(0), theirs: 1 },
        { at: 'radius / diameter 0.12', ours: inletLossFree(0.12), theirs: 0.09 },
      ],
      target: { absolute: 0.1 },
      note: 'The curve between these two ends is our own choice of shape.',
    },
  ],
};
