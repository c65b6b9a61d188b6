import { BadInput } from './fault.ts';

/** A reader of one option's number; the sentence of its refusal names flag, range and unit. */
export function numberFrom(flag: string, min: number, max: number, unit = '', whole = false) {
  return (text: string): number => {
    const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text.trim()) ? Number(text) : NaN;
    if (value >= min && value <= max && (!whole || Number.isInteger(value))) return value;
    const found = text.trim() === '' ? 'empty' : Number.isNaN(value) ? `"${text.slice(0, 40)}"` : text.trim();
    const noun = whole ? 'a whole number' : 'a number';
    throw new BadInput(`${flag} is ${found}; it must be ${noun} from ${min} to ${max}${unit && ' ' + unit}.`);
  };
}
