import tseslint from 'typescript-eslint';
import reactHooks from 'eslint-plugin-react-hooks';
import { rooms } from './scripts/rooms.mjs';

const impure = [
  ['window', 'the core has no DOM; pass what you need in'],
  ['document', 'the core has no DOM; pass what you need in'],
  ['process', 'disk and process belong in src/cli'],
  ['fetch', 'the core reads nothing; pass the bytes in'],
  ['localStorage', 'storage belongs in src/app/state'],
  ['setTimeout', 'the core has no clock'],
].map(([name, message]) => ({ name, message }));

export default tseslint.config(
  { ignores: ['dist', 'dist-page', 'coverage', 'node_modules'] },
  ...tseslint.configs.recommended,
  {
    rules: {
      'no-console': ['error', { allow: ['error', 'warn'] }],
      eqeqeq: 'error',
      'prefer-const': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    },
  },
  {
    files: rooms.map((room) => `src/${room}/**/*.ts`),
    ignores: ['**/*.test.ts'],
    rules: {
      'no-restricted-globals': ['error', ...impure],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'the core is deterministic; take a seed' },
        { object: 'Date', property: 'now', message: 'the core has no clock; take the time as an input' },
      ],
    },
  },
  { files: ['src/app/**/*.{ts,tsx}'], ...reactHooks.configs.flat['recommended-latest'] },
  { files: ['scripts/**', 'speed/**', 'tests/**', 'src/cli/**'], rules: { 'no-console': 'off' } },
);
