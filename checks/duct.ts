import { readFileSync } from 'node:fs';
import { assess } from '../src/assess/assess.ts';
import { readProject } from '../src/project/read.ts';
import type { Topic } from './check.ts';

const DEMO = new URL('../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url);

/** Thrust of the demo's fan in hover over that of its rotor without the duct, at the same shaft power. */
function ductGain(): number {
  const read = readProject(readFileSync(DEMO));
  if (!read.ok) throw new Error('The demo project cannot be read.');
  const { hover, openAtEqualPower } = assess(read.project).fan;
  return hover && openAtEqualPower ? hover.thrust_N / openAtEqualPower.thrust_N : NaN;
}

export const ductTopic: Topic = {
  id: 'duct',
  title: 'What a duct brings',
  intro: [
    'No published table of thrust against tip gap, lip and length at this size was found, so the model of the duct as a whole has only',
    'bounds to stand against. They are wide: staying inside them proves little, leaving them would prove an error.',
  ].join('\n'),
  checks: [
    {
      id: 'duct-gain',
      title: 'Thrust over that of the bare rotor at equal shaft power, demo fan',
      unit: '',
      source:
        'Pereira, Hover and Wind-Tunnel Testing of Shrouded Rotors for Improved Micro Air Vehicle Design, thesis, University of Maryland, 2008 (ADA595716): 17 ducts around a rotor of 160 mm gained up to 94 % over the bare rotor.',
      status: 'read',
      points: () => [{ at: 'hover', ours: ductGain(), theirs: [1, 1.94] }],
      target: { relative: 0 },
    },
  ],
};
