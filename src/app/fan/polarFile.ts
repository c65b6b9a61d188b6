import { enoughForPolar, readPolarCsv } from '../../air/polar.ts';
import { sectionSchema, type Project } from '../../project/schema.ts';
import { degreesFromRadians } from '../../quantities/units.ts';

export type MeasuredPolar = NonNullable<Project['fan']['section']['polar']>;

export type PolarFile =
  { readonly ok: true; readonly polar: MeasuredPolar } | { readonly ok: false; readonly why: string };

/** Measured lift and drag from CSV text, as the project file keeps them; or what is wrong in a sentence. */
export function polarFromCsv(text: string): PolarFile {
  const read = readPolarCsv(text);
  if (!read.ok) return { ok: false, why: read.message };
  if (!enoughForPolar(read.points))
    return {
      ok: false,
      why: 'The polar table needs at least three angles of attack at one Reynolds number; none has so many.',
    };
  const checked = sectionSchema.shape.polar.safeParse(
    read.points.map(({ reynolds, alpha, cl, cd }) => ({
      re: reynolds,
      alpha_deg: Number(degreesFromRadians(alpha).toFixed(9)),
      cl,
      cd,
    })),
  );
  if (!checked.success || !checked.data)
    return {
      ok: false,
      why: 'The polar table holds something no section does; it takes 3 to 5000 points with Re from 100 to 100 million, angles from −180 to 180 degrees, lift coefficients from −5 to 5 and drag coefficients from 0 to 5.',
    };
  return { ok: true, polar: checked.data };
}
