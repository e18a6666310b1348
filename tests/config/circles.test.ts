import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const rooms = ['lib', 'db', 'server', 'app'];

type Imports = ReadonlyMap<string, readonly string[]>;

/** What each of our files imports of our own: values and types, on demand too. */
function importsOf(
  files: readonly string[],
  read: (file: string) => string,
  isThere: (file: string) => boolean,
): Imports {
  const named = (from: string, name: string) => {
    const place = name.startsWith('#') ? name.slice(1) : name.startsWith('.') ? join(dirname(from), name) : null;
    return place === null
      ? []
      : ['', '.ts', '.tsx']
          .map((ending) => `${place}${ending}`)
          .filter(isThere)
          .slice(0, 1);
  };
  return new Map(
    files.map((file) => [
      file,
      ts.preProcessFile(read(file)).importedFiles.flatMap(({ fileName }) => named(file, fileName)),
    ]),
  );
}

/** Files that are reached again from themselves, circle by circle: the strongly connected components of more than one file (Tarjan 1972). */
function circlesIn(imports: Imports): string[][] {
  const [seen, low, path, circles] = [
    new Map<string, number>(),
    new Map<string, number>(),
    [] as string[],
    [] as string[][],
  ];
  const lowest = (one: string, other: number) => low.set(one, Math.min(low.get(one) ?? Infinity, other));
  const visit = (file: string) => {
    seen.set(file, seen.size);
    lowest(file, seen.size - 1);
    path.push(file);
    for (const next of imports.get(file) ?? []) {
      if (!seen.has(next)) visit(next);
      if (path.includes(next)) lowest(file, low.get(next) ?? Infinity);
    }
    if (low.get(file) !== seen.get(file)) return;
    const circle = path.splice(path.indexOf(file));
    if (circle.length > 1) circles.push(circle.toSorted());
  };
  for (const file of imports.keys()) if (!seen.has(file)) visit(file);
  return circles;
}

const files = rooms
  .flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' }).map((path) => `${room}/${path}`),
  )
  .filter((path) => /\.tsx?$/.test(path));
const house = importsOf(
  files,
  (file) => readFileSync(join(root, file), 'utf8'),
  (file) => existsSync(join(root, file)) && /\.tsx?$/.test(file),
);

it('a circle is found through values, types, passed-on names and imports on demand, and a fork is none', () => {
  const texts: Readonly<Record<string, string>> = {
    'lib/a.ts': "import { b } from './b';\nimport { e } from '#lib/e';",
    'lib/b.ts': "export type { C } from './c';",
    'lib/c.ts': "export type C = import('./d').D;",
    'lib/d.ts': "export const later = () => import('#lib/a');",
    'lib/e.ts': "import type { F } from './f';",
    'lib/f.ts': "import { z } from 'zod';",
  };
  const imports = importsOf(
    Object.keys(texts),
    (file) => texts[file] ?? '',
    (file) => file in texts,
  );
  expect([...imports.values()].flat()).toHaveLength(6);
  expect(circlesIn(imports)).toEqual([['lib/a.ts', 'lib/b.ts', 'lib/c.ts', 'lib/d.ts']]);
});

it('no file of the house is reached again from itself, by types either', () => {
  expect(files.length).toBeGreaterThan(500);
  expect([...house.values()].flat().length).toBeGreaterThan(2000);
  expect(circlesIn(house)).toEqual([]);
});

it('the rooms of the server stand above one another', () => {
  const roomOf = (file: string) => /^server\/\w+(?=\/)/.exec(file)?.[0];
  const between = new Map<string, string[]>();
  for (const [file, imported] of house) {
    const from = roomOf(file);
    const to = imported.map(roomOf).filter((room) => room !== undefined && room !== from);
    if (from !== undefined) between.set(from, [...(between.get(from) ?? []), ...to.flatMap((room) => room ?? [])]);
  }
  expect(between.get('server/commands')).toContain('server/write');
  expect(circlesIn(between)).toEqual([]);
});
