/** Deepest nesting of lists and groups a file may have; far above what a project needs, far below a stack's end. */
const MAX_DEPTH = 100;

export type JsonValue =
  null | boolean | number | string | readonly JsonValue[] | { readonly [key: string]: JsonValue };

export type JsonResult =
  | { readonly ok: true; readonly value: JsonValue }
  | { readonly ok: false; readonly message: string; readonly line: number; readonly column: number };

/** Thrown inside this file only; `parseJson` turns it into a result. */
class Stop {
  readonly at: number;
  readonly message: string;
  constructor(at: number, message: string) {
    this.at = at;
    this.message = message;
  }
}

const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const PLAIN = /[^"\\\u0000-\u001f]*/y;

/**
 * Reads JSON (RFC 8259) where the built-in reader would lose something a person typed: a key that stands twice in one
 * group, a number too large to hold, a `__proto__` key. Each is refused with its line and column, counted from 1.
 */
export function parseJson(text: string): JsonResult {
  try {
    return { ok: true, value: parseWhole(text) };
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    return { ok: false, message: stop.message, ...placeOf(text, stop.at) };
  }
}

/** Line and column, from 1, of a character. */
export function placeOf(text: string, at: number): { line: number; column: number } {
  let line = 1;
  let start = 0;
  for (let i = 0; i < at && i < text.length; i++) {
    if (text.charCodeAt(i) === 10) {
      line++;
      start = i + 1;
    }
  }
  return { line, column: at - start + 1 };
}

function parseWhole(text: string): JsonValue {
  let at = 0;

  const skip = () => {
    for (;;) {
      const c = text.charCodeAt(at);
      if (c === 32 || c === 10 || c === 13 || c === 9) at++;
      else return;
    }
  };
  const found = () =>
    at >= text.length ? 'the end of the file' : `"${String.fromCodePoint(text.codePointAt(at)!)}"`;
  const fail = (expected: string): never => {
    throw new Stop(at, `expected ${expected}, found ${found()}`);
  };

  const readString = (): string => {
    const start = at++;
    let out = '';
    for (;;) {
      PLAIN.lastIndex = at;
      out += PLAIN.exec(text)![0];
      at = PLAIN.lastIndex;
      const c = text[at];
      if (c === '"') {
        at++;
        return out;
      }
      if (c === undefined) throw new Stop(start, 'text that begins here has no closing quote');
      if (c !== '\\') throw new Stop(at, 'a line break or control character stands inside quotes');
      const escape = text[at + 1];
      if (escape === 'u') {
        const hex = text.slice(at + 2, at + 6);
        if (!/^[0-9a-fA-F]{4}$/.test(hex)) throw new Stop(at, 'expected four hexadecimal digits after \\u');
        out += String.fromCharCode(parseInt(hex, 16));
        at += 6;
      } else if (escape !== undefined && Object.hasOwn(ESCAPES, escape)) {
        out += ESCAPES[escape];
        at += 2;
      } else throw new Stop(at, 'a backslash stands before a character that needs none');
    }
  };

  const readNumber = (): number => {
    NUMBER.lastIndex = at;
    const match = NUMBER.exec(text);
    if (!match) return fail('a value');
    const value = Number(match[0]);
    if (!Number.isFinite(value)) throw new Stop(at, `the number ${shorten(match[0])} is too large to hold`);
    at = NUMBER.lastIndex;
    return value;
  };

  const readWord = (): JsonValue => {
    for (const [word, value] of [
      ['true', true],
      ['false', false],
      ['null', null],
    ] as const) {
      if (text.startsWith(word, at)) {
        at += word.length;
        return value;
      }
    }
    return fail('a value');
  };

  const readValue = (depth: number): JsonValue => {
    if (depth > MAX_DEPTH) throw new Stop(at, `groups and lists are nested more than ${MAX_DEPTH} deep`);
    skip();
    const c = text[at];
    if (c === '{') return readGroup(depth);
    if (c === '[') return readList(depth);
    if (c === '"') return readString();
    if (c === '-' || (c >= '0' && c <= '9')) return readNumber();
    return readWord();
  };

  const readList = (depth: number): JsonValue[] => {
    at++;
    const list: JsonValue[] = [];
    skip();
    if (text[at] === ']') {
      at++;
      return list;
    }
    for (;;) {
      list.push(readValue(depth + 1));
      skip();
      if (text[at] === ',') at++;
      else if (text[at] === ']') {
        at++;
        return list;
      } else fail('a comma or "]"');
    }
  };

  const readGroup = (depth: number): Record<string, JsonValue> => {
    at++;
    const group: Record<string, JsonValue> = {};
    skip();
    if (text[at] === '}') {
      at++;
      return group;
    }
    for (;;) {
      skip();
      if (text[at] !== '"') fail('a key in double quotes');
      const keyAt = at;
      const key = readString();
      if (key === '__proto__')
        throw new Stop(keyAt, 'the key "__proto__" is not accepted; give it another name');
      if (Object.hasOwn(group, key))
        throw new Stop(keyAt, `the key "${shorten(key)}" stands twice in one group; keep one of them`);
      skip();
      if (text[at] !== ':') fail('a colon');
      at++;
      group[key] = readValue(depth + 1);
      skip();
      if (text[at] === ',') at++;
      else if (text[at] === '}') {
        at++;
        return group;
      } else fail('a comma or "}"');
    }
  };

  const value = readValue(0);
  skip();
  if (at < text.length) fail('the end of the file');
  return value;
}

const shorten = (text: string): string => (text.length > 40 ? text.slice(0, 40) + '…' : text);
