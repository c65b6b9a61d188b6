/** `npm run docs`: writes docs/checks.md and its plots from the published checks. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { renderChecks } from '../checks/render.ts';

const root = new URL('..', import.meta.url);
rmSync(new URL('docs/plots', root), { recursive: true, force: true });
mkdirSync(new URL('docs/plots', root), { recursive: true });
for (const [path, text] of renderChecks()) {
  writeFileSync(new URL(path, root), text);
  console.log(`wrote ${path}`);
}
