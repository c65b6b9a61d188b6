import { formatNumber as n } from '../quantities/format.ts';
import { interactions } from './duct-modes.ts';
import { fateIn } from './fan-tones.ts';
import type { SoundSource } from './source.ts';
import type { ModeRow } from './types.ts';

/** Harmonics told, and patterns with the vanes told for each. */
const TOLD_HARMONICS = 3;
const TOLD_PATTERNS = 2;

/** Lobes looked through for patterns with the vanes. */
const MOST_LOBES = 12;

/** The patterns that spin in the duct, harmonic by harmonic: the rotor's own and those it makes with the vanes. */
export function modeRows(source: SoundSource): ModeRow[] {
  const { blades, omega, vanes, duct } = source;
  if (!duct || !(omega > 0)) return [];
  const fate = fateIn(source);
  const rows: ModeRow[] = [];
  for (let harmonic = 1; harmonic <= TOLD_HARMONICS; harmonic++) {
    const order = harmonic * blades;
    const row = (lobes: number, vaneTurns: number | null) => {
      const from = vaneTurns === null ? duct.fromRotor : duct.fromVanes;
      const { cutOn, cutOnRatio, share } = fate(lobes, order * omega, from);
      const told = {
        harmonic,
        frequency_Hz: (order * omega) / (2 * Math.PI),
        lobes,
        vaneTurns,
        cutOn,
        cutOnRatio: Number.isFinite(cutOnRatio) ? cutOnRatio : null,
        lost_dB: Math.min(200, -10 * Math.log10(Math.max(share, 1e-20))) + 0,
      };
      rows.push({ ...told, words: rowWords(told, blades, vanes?.count ?? 0) });
    };
    row(order, null);
    if (vanes)
      for (const { lobes, vaneTurns } of interactions(blades, vanes.count, harmonic, MOST_LOBES).slice(
        0,
        TOLD_PATTERNS,
      ))
        row(lobes, vaneTurns);
  }
  return rows;
}

function rowWords(row: Omit<ModeRow, 'words'>, blades: number, vanes: number): string {
  const { harmonic, lobes, vaneTurns, cutOn, cutOnRatio, lost_dB } = row;
  const size = Math.abs(lobes);
  const name =
    size === 0
      ? 'a plane wave'
      : `${size} lobe${size === 1 ? '' : 's'}${lobes < 0 ? ', turning backward' : ''}`;
  const who =
    vaneTurns === null
      ? `The rotor alone at ${harmonic} × blade passing`
      : `With the vanes, ${harmonic} × ${blades} ${vaneTurns < 0 ? '−' : '+'} ${Math.abs(vaneTurns)} × ${vanes}`;
  if (size === 0) return `${who}: ${name}, which every duct lets through.`;
  if (cutOn)
    return `${who}: ${name}, cut on (${n(cutOnRatio!, 2)} times the frequency at which it begins to travel).`;
  return `${who}: ${name}, cut off (${n(cutOnRatio!, 2)} of the frequency it would need); the duct takes ${n(lost_dB, 2)} dB of it.`;
}
