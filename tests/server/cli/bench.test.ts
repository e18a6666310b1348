import { afterEach, expect, it } from 'vitest';
import { benchCommand, type BenchLine } from '#server/cli/bench';

const path = process.env['PATH'];

afterEach(() => {
  process.env['PATH'] = path;
});

type Report = {
  readonly lines: readonly BenchLine[];
  readonly r: { readonly missing?: string; readonly version?: string };
};

async function report(): Promise<Report> {
  const said: string[] = [];
  const status = await benchCommand(['--json', '--once'], {
    answer: (line) => said.push(line),
    complain: (line) => said.push(line),
  });
  expect([status, said.length]).toEqual([0, 1]);
  return JSON.parse(said[0] ?? '') as Report;
}

it('ST3: without R the bench says so and claims no ratio', async () => {
  process.env['PATH'] = '/nowhere';
  const { lines, r } = await report();
  expect(r.missing).toMatch(/Rscript is not installed/);
  expect(lines.length).toBeGreaterThan(5);
  expect(
    lines.every((line) => Number.isFinite(line.ms) && line.ms > 0 && line.ratio === null && line.rMs === null),
  ).toBe(true);
});
