import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { faces, rooms } from '../scripts/rooms.mjs';

const root = new URL('..', import.meta.url);
const text = (path: string) => readFileSync(new URL(path, root), 'utf8');
const folders = (path: string) =>
  readdirSync(new URL(path, root), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name);

const pages = [
  'README.md',
  'CHANGELOG.md',
  'CONTRIBUTING.md',
  ...readdirSync(new URL('docs', root))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];

describe('every link from one file to another leads somewhere', () => {
  test.each(pages)('%s', (page) => {
    const targets = [...text(page).matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1]);
    const inside = targets.filter((target) => !/^(https?:|mailto:|#)/.test(target));
    const broken = inside.filter((target) => !existsSync(new URL(target.split('#')[0], new URL(page, root))));
    expect(broken).toEqual([]);
  });
});

test('every file of the repository that a page names is there', () => {
  const named = pages.flatMap((page) =>
    [...text(page).matchAll(/`((?:src|scripts|checks|speed|tests|docs|examples)\/[\w./-]*)`/g)].map(
      (match) => match[1],
    ),
  );
  expect(named.length).toBeGreaterThan(20);
  expect([...new Set(named)].filter((path) => !existsSync(new URL(path, root)))).toEqual([]);
});

test('every folder of src/ is a room or a face, and the architecture page tells of it', () => {
  const known = [...rooms, ...faces];
  const there = folders('src').filter((name) => readdirSync(new URL(`src/${name}`, root)).length > 0);
  expect(there.filter((name) => !known.includes(name))).toEqual([]);
  const page = text('docs/architecture.md');
  expect(there.filter((name) => !page.includes(`\`${name}/\``))).toEqual([]);
});

test('the lists of rooms for the lint and for the boundary check agree', async () => {
  const lint = text('eslint.config.js');
  const core = /const core = \[([^\]]*)\]/.exec(lint)?.[1].match(/[\w-]+/g);
  expect(core ?? rooms).toEqual(rooms);
});
