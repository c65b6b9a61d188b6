import { describe, expect, it } from 'vitest';
import { assess } from '../../assess/assess.ts';
import { demoProject, heavyProject } from '../state/examples.ts';
import { answersOf, headlineOf, whenOf } from './answers.ts';

describe('the rows of the margin', () => {
  it('are read off the assessment', () => {
    const assessment = assess(demoProject());
    const rows = answersOf(assessment, 4);
    expect(rows.find((r) => r.id === 'need')?.value).toMatch(/^0\.\d+ N$/);
    expect(rows.find((r) => r.id === 'throttle')?.interval).toMatch(/^\d+\s% to \d+\s%$/);
    expect(new Set(rows.map((r) => r.id)).size).toBe(rows.length);
    for (const row of rows) expect(row.why.length).toBeGreaterThan(0);
    expect(whenOf(assessment)).toBe('in hover');
  });

  it('do not speak of hover where there is none', () => {
    const assessment = assess(heavyProject());
    expect(assessment.craft.lifts).toBe(false);
    const rows = answersOf(assessment, 4);
    expect(rows.find((r) => r.id === 'endurance')).toMatchObject({ value: 'none', interval: undefined });
    expect(rows.filter((r) => r.label.includes('in hover') && r.id !== 'need')).toEqual([]);
  });

  it('part a headline from its interval', () => {
    expect(headlineOf('It lifts, with 1.5 times its weight (1.3 to 1.7)')).toEqual([
      'It lifts, with 1.5 times its weight',
      '(1.3 to 1.7)',
    ]);
    expect(headlineOf('It lifts')).toEqual(['It lifts', '']);
  });
});
