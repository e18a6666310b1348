import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { citedRules } from '../support/citedRules';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The ids under the heading "## Rules" of DEVELOPERS.md, up to the next heading of that level. */
function writtenRules(): string[] {
  const text = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
  const section = /^## Rules$([\s\S]*?)(?=^## )/m.exec(text)?.[1] ?? '';
  return [...section.matchAll(/^- ([A-Z]{2}\d+) \S/gm)].map((match) => match[1] ?? '');
}

const testFiles = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' }).filter((path) =>
  /\.(test|spec)\.tsx?$/.test(path),
);
const cited = new Map(testFiles.map((path) => [path, citedRules(readFileSync(join(root, 'tests', path), 'utf8'))]));

describe('numbered rules', () => {
  it('are read from test titles, plain, tabled and joined', () => {
    const text = [
      "it('AA1: plain', () => {});",
      "it.each([1])('AA2: tabled', () => {});",
      'test(`AA3, AA4: joined ${1}`, () => {});',
      'it.each`a\n${1}`("AA5: tagged", () => {});',
      "// it('AA6: in a comment', () => {});",
      "describe('AA7: a group', () => {});",
      "it('icc-01: a reference case', () => {});",
    ].join('\n');
    expect(citedRules(text)).toEqual(['AA1', 'AA2', 'AA3', 'AA4', 'AA5']);
  });

  it('are written down, each once', () => {
    const rules = writtenRules();
    expect(rules.length).toBeGreaterThan(0);
    expect(rules.filter((rule, place) => rules.indexOf(rule) !== place)).toEqual([]);
  });

  it('each have a test whose title starts with their id', () => {
    const tested = new Set([...cited.values()].flat());
    expect(writtenRules().filter((rule) => !tested.has(rule))).toEqual([]);
  });

  it('are the only ones that tests cite', () => {
    const known = new Set(writtenRules());
    const unknown = [...cited].flatMap(([path, rules]) =>
      rules.filter((rule) => !known.has(rule)).map((rule) => `${path}: ${rule}`),
    );
    expect(unknown).toEqual([]);
  });
});

it('every file of tests that opens pages in the browser closes them after each test', () => {
  const opening = testFiles.filter(
    (path) => path.startsWith('e2e') && /\bbrowser\b/.test(readFileSync(join(root, 'tests', path), 'utf8')),
  );
  expect(opening.length).toBeGreaterThan(10);
  expect(
    opening.filter((path) => !readFileSync(join(root, 'tests', path), 'utf8').includes('test.afterEach(closePages);')),
  ).toEqual([]);
});
