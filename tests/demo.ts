import { readFileSync } from 'node:fs';
import { projectSchema, type Project } from '../src/project/schema.ts';

const example = (name: string): Project =>
  projectSchema.parse(
    JSON.parse(
      readFileSync(new URL(`../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url), 'utf8'),
    ),
  );

/** The demo project, and its sister that does not lift, for tests. */
export const demo = example('greenhouse-scout');
export const heavyDemo = example('greenhouse-scout-heavy');
