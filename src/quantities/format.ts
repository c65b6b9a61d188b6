/**
 * A number for people: `digits` significant figures, never in exponent form within 1e-4..1e7, thin spaces between
 * thousands above 9999, true minus sign.
 */
export function formatNumber(value: number, digits = 3): string {
  if (Number.isNaN(value)) return 'unknown';
  if (!Number.isFinite(value)) return value > 0 ? 'unlimited' : '−unlimited';
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(Number(value.toPrecision(digits)))));
  if (magnitude < -4 || magnitude > 7) return value.toExponential(digits - 1).replace('-', '−');
  const decimals = Math.max(0, Math.min(12, digits - 1 - magnitude));
  const rounded = magnitude >= digits ? Number(value.toPrecision(digits)) : value;
  const [whole, part] = Math.abs(rounded).toFixed(decimals).split('.');
  const spaced = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+(?!\d))/g, ' ') : whole;
  return (value < 0 ? '−' : '') + spaced + (part ? '.' + part : '');
}

/** "4 min 50 s" from minutes. */
export function formatMinutes(minutes: number): string {
  const seconds = Math.round(minutes * 60);
  const whole = Math.floor(seconds / 60);
  const rest = seconds % 60;
  if (whole === 0) return `${rest} s`;
  return rest === 0 ? `${whole} min` : `${whole} min ${rest} s`;
}

/** "58 %" from a ratio, with a space that no line breaks at. */
export function formatPercent(ratio: number, digits = 0): string {
  return `${(ratio * 100).toFixed(digits).replace('-', '−')}\u00a0%`;
}
