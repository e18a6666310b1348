import { readFileSync } from 'node:fs';
import { expect } from 'vitest';

/** One stored reference case: data and expected numbers from general-purpose statistics packages; `source` and `computed_by` are in the file. */
export type Tolerance = { readonly abs: number; readonly rel: number };
export type Levels = Readonly<Record<string, number | null>>;

export type ExpectedEntry = {
  readonly statistic: string;
  readonly options: Readonly<Record<string, unknown>>;
  readonly value?: number | null;
  readonly values?: unknown;
  readonly undefined?: boolean;
  readonly tolerance: Tolerance;
  readonly [field: string]: unknown;
};

export type ReferenceCase = {
  readonly id: string;
  readonly title: string;
  readonly data: Readonly<Record<string, unknown>> & { readonly format: string };
  readonly expected: readonly ExpectedEntry[];
};

export function readReferenceCase(id: string): ReferenceCase {
  const path = new URL(`../../../fixtures/reference/${id}.json`, import.meta.url);
  return JSON.parse(readFileSync(path, 'utf8')) as ReferenceCase;
}

/** Entries with a title that starts with the case id and says which entry it is. */
export function titled(id: string, entries: readonly ExpectedEntry[]): [title: string, entry: ExpectedEntry][] {
  return entries.map((entry, at) => {
    const options = Object.entries(entry.options).filter(([, value]) => String(value).length < 40);
    return [
      `${id}: ${entry.statistic} ${at} ${options.map(([name, value]) => `${name} ${String(value)}`).join(', ')}`.trim(),
      entry,
    ];
  });
}

/** |got - stored| ≤ abs + rel·|stored|, the rule the stored tolerances are meant for. */
export function expectWithin(
  got: number,
  stored: number,
  { tolerance, what }: { tolerance: Tolerance; what: string },
): void {
  const allowed = tolerance.abs + tolerance.rel * Math.abs(stored);
  const difference = Math.abs(got - stored);
  expect(difference <= allowed, `${what}: got ${got}, stored ${stored}, off by ${difference}, allowed ${allowed}`).toBe(
    true,
  );
}
