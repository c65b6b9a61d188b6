import { defineConfig } from 'vitest/config';

const project = (name: string, include: string) => ({
  extends: true as const,
  test: { name, include: [include] },
});

export default defineConfig({
  test: {
    testTimeout: 60_000,
    projects: [
      project('unit', 'src/**/*.test.{ts,tsx}'),
      project('project', 'tests/*.test.ts'),
      project('checks', 'checks/**/*.test.ts'),
    ],
  },
});
