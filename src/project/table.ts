/** What may stand between the cells of a table; the empty one: a table of one column. */
export type Between = '\t' | ';' | ',' | 'spaces' | 'space' | '';

/** Larger tables are refused before they are taken apart. */
export const MOST_TABLE_BYTES = 512_000_000;

export type TextRead =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly message: string };

/**
 * The text of a table from its bytes: UTF-8, UTF-16 with its mark, else the old one-byte Western set that many meters
 * still write. Total: bytes that are no text get a sentence.
 */
export function textFromBytes(bytes: Uint8Array): TextRead {
  const refuse = (message: string): TextRead => ({ ok: false, message });
  if (bytes.length === 0) return refuse('The file is empty; a table with a line of names is needed.');
  if (bytes.length > MOST_TABLE_BYTES)
    return refuse(
      `The file has ${Math.round(bytes.length / 1e6)} MB; at most ${MOST_TABLE_BYTES / 1e6} MB are taken. Cut it, or log fewer readings a second.`,
    );
  const text = decoded(bytes);
  if (text === null || text.includes('\0'))
    return refuse('The file holds no text but raw bytes; export the readings as CSV.');
  return { ok: true, text };
}

function decoded(bytes: Uint8Array): string | null {
  const strict = (name: string): string | null => {
    try {
      return new TextDecoder(name, { fatal: true }).decode(bytes);
    } catch {
      return null;
    }
  };
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return strict('utf-16le');
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return strict('utf-16be');
  return strict('utf-8') ?? strict('windows-1252');
}

export interface TableLine {
  readonly text: string;
  /** Counted from 1, as an editor shows it. */
  readonly number: number;
  /** Where the next line begins in the whole text. */
  readonly end: number;
}

/** The lines of a text one after the other, whatever ends them, without its byte order mark; blank ones left out. */
export function* linesOf(text: string): Generator<TableLine> {
  let number = 0;
  let at = text.startsWith('\ufeff') ? 1 : 0;
  // Looked for once past the last one found, not once a line: most files hold no lone carriage return.
  const lone = /\r(?!\n)/g;
  const nextLone = (from: number): number => {
    lone.lastIndex = from;
    return lone.exec(text)?.index ?? text.length;
  };
  let back = nextLone(at);
  while (at < text.length) {
    let stop = text.indexOf('\n', at);
    if (stop < 0) stop = text.length;
    if (back < at) back = nextLone(at);
    if (back < stop) stop = back;
    number++;
    let last = stop;
    if (last > at && text.charCodeAt(last - 1) === 13) last--;
    const line = text.slice(at, last);
    at = stop + 1;
    if (line.trim() !== '') yield { text: line, number, end: Math.min(at, text.length) };
  }
}

/** What a line of names has between them: a tab, else a semicolon, else a comma. */
export const betweenIn = (head: string): '\t' | ';' | ',' =>
  head.includes('\t') ? '\t' : head.includes(';') ? ';' : ',';

/** The cells of one line, trimmed; quotes hold a separator, two quotes in them stand for one. */
export function cellsOf(line: string, between: Between): string[] {
  if (between === '') return [unquoted(line.trim())];
  if (between === 'space') return line.trim().split(/\s+/);
  if (between === 'spaces') return line.trim().split(/\s{2,}/);
  if (!line.includes('"')) return line.split(between).map((cell) => cell.trim());
  const found: string[] = [];
  let cell = '';
  let quoted = false;
  for (let i = 0; i < line.length; i++) {
    const c = line[i];
    if (quoted && c === '"' && line[i + 1] === '"') {
      cell += c;
      i++;
    } else if (c === '"' && (quoted || cell.trim() === '')) quoted = !quoted;
    else if (c === between && !quoted) {
      found.push(cell.trim());
      cell = '';
    } else cell += c;
  }
  return [...found, cell.trim()];
}

const unquoted = (text: string): string =>
  text.length >= 2 && text.startsWith('"') && text.endsWith('"')
    ? text.slice(1, -1).replaceAll('""', '"').trim()
    : text;

/** What marks the decimals in a number, and with it what may group its thousands. */
export type Decimal = '.' | ',';

/** A plain number in full, with a point; NaN where the text is none. */
export const plainNumber = (text: string): number =>
  /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;

/**
 * The number a cell holds, NaN where it holds none. Thousands may be grouped by spaces, apostrophes or the mark that is
 * not the decimal one; the typographic minus is one.
 */
export function numberInCell(cell: string, decimal: Decimal): number {
  const quick = plainNumber(cell);
  if (decimal === '.' && Number.isFinite(quick)) return quick;
  let text = cell.replace(/[\u2212\u2013]/g, '-').trim();
  if (/^[-+]?\d{1,3}(['’\u00a0\u2009\u202f ]\d{3})+(?!\d)/.test(text))
    text = text.replace(/(\d)['’\u00a0\u2009\u202f ](?=\d{3})/g, '$1');
  if (decimal === ',') {
    if (/^[-+]?\d{1,3}(\.\d{3})+(,\d*)?$/.test(text)) text = text.replaceAll('.', '');
    // A point alone is still a point: some meters write 12.3 beside a table with commas.
    text = text.replace(',', '.');
  } else if (/^[-+]?\d{1,3}(,\d{3})+(\.\d*)?$/.test(text)) text = text.replaceAll(',', '');
  const value = plainNumber(text);
  return Number.isFinite(value) ? value : Number.NaN;
}
