/** Bad input from the person at the keyboard: its message is one clear sentence, and the program leaves with code 2. */
export class BadInput extends Error {}

/** Ends a text as a sentence, on one line. */
export function sentence(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return /[.?]$/.test(line) ? line : `${line}.`;
}
