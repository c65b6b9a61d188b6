import { expect, test } from 'vitest';
import { balanceTopic } from './balance.ts';
import { judge } from './check.ts';

test.each(balanceTopic.checks.map((check) => [check.id, check] as const))('%s', (_, check) => {
  const { verdict, points } = judge(check);
  expect(verdict, JSON.stringify(points)).toBe('met');
});
