import { readFileSync } from 'node:fs';
import type { MeasuredRotor, SectionFit } from './rotor-data.ts';

/** Written by scripts/fit-section.ts: the fit to everything as `all`, and by geometry the fits that never saw it. */
const FITS = JSON.parse(readFileSync(new URL('data/section-fits.json', import.meta.url), 'utf8')) as Readonly<
  Record<string, SectionFit>
>;

/** The fit of `name`; throws where the file has none. */
function fit(name: string): SectionFit {
  const found = FITS[name];
  if (!found) throw new Error(`checks/data/section-fits.json has no fit for ${name}`);
  return found;
}

export const fitOfAll = fit('all');

/** The fit from which every run of this rotor's geometry was left out. */
export const fitWithout = ({ geometry }: MeasuredRotor): SectionFit => fit(geometry);
