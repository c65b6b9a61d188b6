import { describe, expect, it } from 'vitest';
import { BadInput } from './fault.ts';
import { readRotorTable } from './table.ts';

const read = (text: string) => readRotorTable(new TextEncoder().encode(text), 'rotor.csv');
const refusal = (text: string) => {
  try {
    read(text);
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  return 'accepted';
};

describe('readRotorTable', () => {
  const plain = {
    radius_mm: [10, 20.5],
    chord_mm: [8, 6],
    angle_deg: [40, 20],
    thickness_ratio: null,
    camber_ratio: null,
    ignored: [],
  };

  it('reads stations in any order, with comments, either line ending, a byte order mark and three separators', () => {
    expect(read('radius_mm,chord_mm,angle_deg\n10,8,40\n20.5,6,20\n')).toEqual(plain);
    expect(
      read('\ufeff# from a paper\r\nangle_deg;radius_mm;chord_mm\r\n20;20.5;6\r\n\r\n# tip above\r\n40;10;8'),
    ).toEqual(plain);
    expect(read('Radius_mm\tchord_mm\tangle_deg\n10\t8\t40\n 20.5\t+6e0 \t20\n')).toEqual(plain);
    expect(read('"radius_mm","chord_mm","angle_deg"\r10,"8",40\r20.5,6,20')).toEqual(plain);
  });

  it('takes thickness and camber where they stand and names the columns it leaves', () => {
    expect(
      read(
        'radius_mm,chord_mm,angle_deg,thickness_ratio,camber_ratio,sweep_mm\n1,2,3,0.1,0.02,9\n2,2,3,0.08,0,9',
      ),
    ).toEqual({
      radius_mm: [1, 2],
      chord_mm: [2, 2],
      angle_deg: [3, 3],
      thickness_ratio: [0.1, 0.08],
      camber_ratio: [0.02, 0],
      ignored: ['sweep_mm'],
    });
  });

  it('names the line of what it cannot take', () => {
    const head = '# title\nradius_mm,chord_mm,angle_deg\n';
    expect(refusal('')).toBe(
      'rotor.csv is empty; a rotor table begins with the heading radius_mm,chord_mm,angle_deg.',
    );
    expect(refusal('1,2,3\n4,5,6')).toBe(
      'rotor.csv line 1: the column radius_mm is missing; the heading must hold radius_mm,chord_mm,angle_deg.',
    );
    expect(refusal('radius_mm,chord_mm,angle_deg,chord_mm\n1,2,3,4')).toBe(
      'rotor.csv line 1: the column chord_mm stands 2 times.',
    );
    expect(refusal(head + '10,8,40\n12,x,3')).toBe(
      'rotor.csv line 4: chord_mm is "x"; it must be a number from 0 to 10000 mm.',
    );
    expect(refusal(head + '10,8,95')).toBe(
      'rotor.csv line 3: angle_deg is 95; it must be a number from -90 to 90°.',
    );
    expect(refusal(head + '10,,40')).toBe(
      'rotor.csv line 3: chord_mm is empty; it must be a number from 0 to 10000 mm.',
    );
    expect(refusal(head + '-1,8,40')).toBe(
      'rotor.csv line 3: radius_mm is -1; it must be a number from 0 to 50000 mm.',
    );
    expect(refusal(head + '10,1e999,40')).toBe(
      'rotor.csv line 3: chord_mm is 1e999; it must be a number from 0 to 10000 mm.',
    );
    expect(refusal(head + '10,5,8,40')).toBe(
      'rotor.csv line 3: 4 values where the heading has 3 columns (numbers are written with a point, as in 12.5).',
    );
    expect(refusal(head + '10,8,40')).toBe('rotor.csv has 1 station; a rotor needs at least 2, hub and tip.');
    expect(refusal(head + '10,8,40\n20,8,40\n10,7,40')).toBe(
      'rotor.csv line 5: radius_mm 10 already stands in line 3; each station needs its own radius.',
    );
    expect(refusal(head + '10,0,40\n20,0,40')).toBe(
      'rotor.csv: chord_mm is 0 in every line; there is no blade.',
    );
    expect(() => readRotorTable(Uint8Array.of(35, 10, 0xe9), 'rotor.csv')).toThrow(
      'rotor.csv is not UTF-8 text (first odd byte: line 2); a rotor table is plain text.',
    );
  });
});
