/** Masses typed as a list, or why they can't be taken. */
export type ReadMasses =
  { readonly ok: true; readonly masses: readonly number[] } | { readonly ok: false; readonly why: string };

const LEAST = 0.001;
const MOST = 5000;

/**
 * Blade masses [g] from one line: blanks or semicolons between (then a decimal comma is taken), or commas alone. An empty
 * line is no masses.
 */
export function readMasses(text: string, most = 20): ReadMasses {
  const typed = text.trim();
  if (typed === '') return { ok: true, masses: [] };
  const apart = /[\s;]/.test(typed);
  const parts = (apart ? typed.split(/[\s;]+/).map((p) => p.replace(/,$/, '')) : typed.split(',')).filter(
    (part) => part !== '',
  );
  if (parts.length > most)
    return { ok: false, why: `There are ${parts.length} masses; a rotor has at most ${most} blades.` };
  const masses: number[] = [];
  for (const [i, part] of parts.entries()) {
    const plain = apart ? part.replace(',', '.') : part;
    const mass = /^(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
    if (!(mass >= LEAST && mass <= MOST))
      return {
        ok: false,
        why: `Mass ${i + 1} is "${part.slice(0, 20)}"; it must be a number from ${LEAST} to ${MOST} g.`,
      };
    masses.push(mass);
  }
  return { ok: true, masses };
}
