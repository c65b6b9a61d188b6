import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { renderCliDocs } from '../../scripts/cli-docs.ts';

it('docs/cli.md is what the help texts say (if not: node scripts/cli.mjs --run scripts/cli-docs.ts)', async () => {
  expect(readFileSync(new URL('../../docs/cli.md', import.meta.url), 'utf8')).toBe(await renderCliDocs());
});
