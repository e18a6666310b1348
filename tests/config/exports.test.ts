import { execFile } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import ts from 'typescript';
import { expect, it } from 'vitest';
import { z } from 'zod';

const root = fileURLToPath(new URL('../..', import.meta.url));

const names = z.array(z.object({ name: z.string() }));
const issueSchema = z.object({
  file: z.string(),
  files: names,
  exports: names,
  types: names,
  dependencies: names,
  devDependencies: names.optional().default([]),
  unlisted: names,
  unresolved: names,
});
type Issue = z.infer<typeof issueSchema>;

/** What knip finds, by tests/config/knip.json: files nobody reads, exports nobody imports, packages nobody asks for or that are not named. */
async function found(...more: readonly string[]): Promise<readonly Issue[]> {
  const args = [
    join(root, 'node_modules/knip/bin/knip.js'),
    '--config',
    'tests/config/knip.json',
    '--no-progress',
    '--no-exit-code',
    '--reporter',
    'json',
    ...more,
  ];
  const { stdout } = await promisify(execFile)(process.execPath, args, { cwd: root, maxBuffer: 10_000_000 });
  return z.object({ issues: z.array(issueSchema) }).parse(JSON.parse(stdout)).issues;
}

/** What one file imports by name, from which file of ours (without its ending). */
function importedBy(path: string): readonly (readonly [file: string, name: string])[] {
  const source = ts.createSourceFile(path, readFileSync(join(root, path), 'utf8'), ts.ScriptTarget.Latest);
  return source.statements.flatMap((line) => {
    if (!ts.isImportDeclaration(line) || !ts.isStringLiteral(line.moduleSpecifier)) return [];
    const { text } = line.moduleSpecifier;
    const file = text.startsWith('#') ? text.slice(1) : join(dirname(path), text);
    const bindings = line.importClause?.namedBindings;
    const elements = bindings && ts.isNamedImports(bindings) ? [...bindings.elements] : [];
    return elements.map((one) => [file, (one.propertyName ?? one.name).text] as const);
  });
}

const allTests = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' }).filter((path) =>
  /\.(test|spec)\.tsx?$/.test(path),
);

/** Of a file without its ending, what tests of it import by name: those of its own room, and those of faults that people met. */
function testedNames(file: string): ReadonlySet<string> {
  const [room = ''] = file.split('/');
  const own = allTests.filter((path) => path.startsWith(`${room}/`) || path.startsWith('regression/'));
  return new Set(
    own.flatMap((path) => imports(`tests/${path}`)).flatMap(([from, name]) => (from === file ? [name] : [])),
  );
}

const known = new Map<string, ReturnType<typeof importedBy>>();

function imports(path: string): ReturnType<typeof importedBy> {
  const list = known.get(path) ?? importedBy(path);
  known.set(path, list);
  return list;
}

/** Serve no part of the program: what draws the pictures of the invented litter, which are kept as files, and what makes a migration. */
const tools = ['lib/photo/drawing/rasterise.ts', 'db/generate.mjs'];
/** Tested through the rooms above: the page's own ids against the server, and lines of the record that only look right. */
const testedElsewhere = ['callIdLink', 'recordHash'];

it('no file is read by nobody, no export imported by nobody, and no package in vain', async () => {
  const issues = await found();
  const told = issues.flatMap(({ file, ...kinds }) =>
    Object.entries(kinds).flatMap(([kind, list]) => list.map(({ name }) => `${kind}: ${name} (${file})`)),
  );
  expect(told).toEqual([]);
});

it('what only tests import is imported by a test of it', async () => {
  const issues = (await found('--production')).filter(({ file }) => !tools.includes(file));
  const bare = (file: string) => file.replace(/\.tsx?$/, '');
  const lone = issues.filter(({ files }) => files.length > 0).map(({ file }) => file);
  // What nothing but such a file imports is tested with it.
  const withLone = new Set(lone.flatMap(imports).map(([, name]) => name));
  const untested = issues.flatMap(({ file, exports, types }) => {
    const tested = testedNames(bare(file));
    return [...exports, ...types].map(({ name }) => name).filter((name) => !tested.has(name) && !withLone.has(name));
  });
  expect(lone.filter((file) => testedNames(bare(file)).size === 0)).toEqual([]);
  expect(untested.toSorted()).toEqual(testedElsewhere);
});
