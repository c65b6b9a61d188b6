import { COUPON, type CouponReadings, type SizeReading } from '../../print/coupon.ts';

/** What is typed on the coupon form, as typed. Keys: `fin`, `gap`, `lean`, `pin-3`, `hole-5` and so on. */
export type Typed = Readonly<Record<string, string>>;

export type ReadTyped =
  | { readonly ok: true; readonly readings: CouponReadings; readonly any: boolean }
  | { readonly ok: false; readonly key: string; readonly error: string };

/** Several readings of one size stand with blanks between; a decimal comma is taken as a point. */
function numbersIn(text: string): number[] | null {
  const words = text
    .trim()
    .split(/[\s;]+/)
    .filter(Boolean);
  const values = words.map((word) => Number(word.replace(',', '.')));
  return values.every((value) => Number.isFinite(value) && value > 0) ? values : null;
}

/** The form as readings of the coupon; the first field that is no number is named. */
export function readTyped(typed: Typed): ReadTyped {
  const faults: { key: string; error: string }[] = [];
  const sizes = (kind: 'pin' | 'hole', nominals: readonly number[]): SizeReading[] =>
    nominals.flatMap((nominal_mm) => {
      const key = `${kind}-${nominal_mm}`;
      const text = typed[key] ?? '';
      if (text.trim() === '') return [];
      const measured_mm = numbersIn(text);
      if (measured_mm) return [{ nominal_mm, measured_mm }];
      faults.push({
        key,
        error: `"${text.trim()}" at the ${kind} of ${nominal_mm} mm is no number of millimetres; write it as in ${nominal_mm}.05, several with blanks between.`,
      });
      return [];
    });
  const chosen = (key: string) => (typed[key] ? Number(typed[key]) : undefined);
  const pins = sizes('pin', COUPON.pins.diameter);
  const holes = sizes('hole', COUPON.holes);
  if (faults.length > 0) return { ok: false, ...faults[0] };
  const [fin, gap, lean] = [chosen('fin'), chosen('gap'), chosen('lean')];
  const readings: CouponReadings = {
    ...(fin !== undefined && { thinnestWholeFin_mm: fin }),
    ...(pins.length > 0 && { pins }),
    ...(holes.length > 0 && { holes }),
    ...(gap !== undefined && { narrowestOpenGap_mm: gap }),
    ...(lean !== undefined && { steepestCleanLean_deg: lean }),
  };
  return { ok: true, readings, any: Object.keys(readings).length > 0 };
}
