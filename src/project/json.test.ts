import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseJson } from './json.ts';

const refusal = (text: string) => {
  const result = parseJson(text);
  return result.ok ? 'accepted' : `${result.line}:${result.column} ${result.message}`;
};

describe('parseJson', () => {
  it('reads what the built-in reader reads, to the same value (2 000 random values, seed 7)', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const result = parseJson(text);
        if (text.includes('__proto__')) return;
        expect(result).toEqual({ ok: true, value: JSON.parse(text) });
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  it('refuses what the built-in reader refuses (3 000 random texts close to JSON, seed 8)', () => {
    const pieces = fc.constantFrom(
      ...[
        '{',
        '}',
        '[',
        ']',
        ',',
        ':',
        '"a"',
        '"',
        '\\u00e9',
        '1',
        '-',
        '.5',
        '1e3',
        '01',
        'true',
        'nul',
        'null',
        ' ',
        '\n',
        '\t',
        '+',
        "'",
        '"\\n"',
        '"\\x"',
      ],
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 8 }), (parts) => {
        const text = parts.join('');
        let value: unknown;
        let fine = true;
        try {
          value = JSON.parse(text);
        } catch {
          fine = false;
        }
        const result = parseJson(text);
        if (!result.ok && result.message.includes('twice')) return;
        expect(result.ok).toBe(fine);
        if (result.ok) expect(result.value).toEqual(value);
      }),
      { seed: 8, numRuns: 3000 },
    );
  });

  it('says where and what, counted from line 1 and column 1', () => {
    expect(refusal('{\n  "a": 1,\n}')).toBe('3:1 expected a key in double quotes, found "}"');
    expect(refusal('{"a" 1}')).toBe('1:6 expected a colon, found "1"');
    expect(refusal('{"a": 1 "b": 2}')).toBe('1:9 expected a comma or "}", found """');
    expect(refusal('[1 2]')).toBe('1:4 expected a comma or "]", found "2"');
    expect(refusal('[1] x')).toBe('1:5 expected the end of the file, found "x"');
    expect(refusal('{"a": "open')).toBe('1:7 text that begins here has no closing quote');
    expect(refusal('"two\nlines"')).toBe('1:5 a line break or control character stands inside quotes');
    expect(refusal('NaN')).toBe('1:1 expected a value, found "N"');
    expect(refusal('')).toBe('1:1 expected a value, found the end of the file');
  });

  it('refuses what would lose something typed, or harm', () => {
    expect(refusal('{"a": 1,\n "a": 2}')).toBe('2:2 the key "a" stands twice in one group; keep one of them');
    expect(refusal('[1e999]')).toBe('1:2 the number 1e999 is too large to hold');
    expect(refusal('{"__proto__": {"x": 1}}')).toBe(
      '1:2 the key "__proto__" is not accepted; give it another name',
    );
    expect(({} as { x?: number }).x).toBeUndefined();
    expect(refusal('['.repeat(1_000_000))).toBe('1:102 groups and lists are nested more than 100 deep');
    expect(refusal('{"a":'.repeat(1_000_000))).toMatch(/nested more than 100 deep/);
  });
});
