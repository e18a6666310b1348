import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createContext, runInContext } from 'node:vm';

/**
 * Examples in docstrings, one expression a line with what it gives: ` * normalCdf(1.96) // 0.9750`. Lines after `@example` up to an empty line,
 * a tag or the end of the docstring belong to it; a line without `//` prepares the next ones (`const scores = …`).
 */
type WorkedExample = { readonly file: string; readonly lines: readonly ExampleLine[] };
type ExampleLine = { readonly at: number; readonly expression: string; readonly written: string | null };

const room = new URL('../../lib/stats/', import.meta.url);

export const statisticsFiles = readdirSync(fileURLToPath(room))
  .filter((name) => name.endsWith('.ts'))
  .sort();

export function sourceOf(file: string): string {
  return readFileSync(new URL(file, room), 'utf8');
}

export function examplesOf(file: string, source: string): WorkedExample[] {
  const found: WorkedExample[] = [];
  let lines: ExampleLine[] | null = null;
  source.split('\n').forEach((line, index) => {
    const text = /^\s*\* ?(.*)$/.exec(line)?.[1]?.trim() ?? '';
    if (text.startsWith('@example')) {
      lines = [];
      found.push({ file, lines });
    } else if (text === '' || text.startsWith('@') || text.endsWith('/')) {
      lines = null;
    } else {
      const [expression = '', written = null] = text.split(' // ');
      lines?.push({ at: index + 1, expression, written });
    }
  });
  return found;
}

/** What is wrong with an example, by line; nothing when every value is the one written. `known` is what its expressions may name. */
export function faultsOf({ file, lines }: WorkedExample, known: Readonly<Record<string, unknown>>): string[] {
  const context = createContext({ ...known });
  return lines.flatMap(({ at, expression, written }) => {
    const got: unknown = runInContext(expression, context);
    return written === null || agrees(got, parsed(written))
      ? []
      : [`${file}:${at} ${expression} gives ${shown(got)}, not ${written}`];
  });
}

/** Numbers become strings that keep the digits written; all else is JSON. */
function parsed(written: string): unknown {
  const marked = written.replace(/"[^"]*"|-?(?:\d+(?:\.\d+)?(?:e[+-]?\d+)?|Infinity)/g, (token) =>
    token.startsWith('"') ? token : `"#${token}"`,
  );
  return JSON.parse(marked);
}

function agrees(got: unknown, written: unknown): boolean {
  if (typeof written === 'string' && written.startsWith('#'))
    return typeof got === 'number' && closeTo(got, written.slice(1));
  if (typeof written !== 'object' || written === null) return got === written;
  if (Array.isArray(written)) {
    const listed = listOf(got);
    return listed !== null && listed.length === written.length && written.every((part, i) => agrees(listed[i], part));
  }
  if (typeof got !== 'object' || got === null || listOf(got) !== null) return false;
  const [own, wanted] = [new Map(Object.entries(got)), Object.entries(written)];
  return own.size === wanted.length && wanted.every(([key, part]) => own.has(key) && agrees(own.get(key), part));
}

function listOf(value: unknown): readonly unknown[] | null {
  if (Array.isArray(value)) return value as readonly unknown[];
  return ArrayBuffer.isView(value) && !(value instanceof DataView) ? Array.from(value as Float64Array) : null;
}

/** Half a unit of the last decimal written; whole numbers but for rounding. */
function closeTo(got: number, written: string): boolean {
  const value = Number(written);
  if (got === value) return true;
  const [, decimals, exponent = '0'] = /^-?\d+(?:\.(\d+))?(?:e(.*))?$/.exec(written) ?? [];
  const allowed =
    decimals === undefined
      ? 1e-9 * Math.max(1, Math.abs(value))
      : 0.5000001 * 10 ** (Number(exponent) - decimals.length);
  return Math.abs(got - value) <= allowed + 4e-16 * Math.abs(value);
}

function shown(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'number' && !Number.isFinite(part) ? String(part) : (listOf(part) ?? part),
  );
}

/** Exports of a source text by kind, with whether a docstring stands right above each. */
export function exportsOf(
  source: string,
): { readonly name: string; readonly isFunction: boolean; readonly told: boolean }[] {
  const lines = source.split('\n');
  return lines.flatMap((line, at) => {
    const [, kind, name] = /^export (?:async )?(function|const|type|class) (\w+)/.exec(line) ?? [];
    return name === undefined
      ? []
      : [{ name, isFunction: kind === 'function', told: (lines[at - 1] ?? '').endsWith('*/') }];
  });
}
