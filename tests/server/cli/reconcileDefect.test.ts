import { expect, it, vi } from 'vitest';
import type { Panel } from '#lib/reconcile/panel';
import { reconcileCommand } from '#server/cli/reconcile';
import { csvOfTable, recordedOutput, scoreFiles } from './scoreFiles';

vi.mock('#server/cli/panelReport', () => ({
  panelReport: ({ puppies }: Panel) => {
    if (puppies.length === 1) throw new Error('a defect of ours');
    return { panel: { puppies: puppies.length } };
  },
}));

const write = scoreFiles();

it('a defect is told with its place, costs its own file only, and shows in the status', async () => {
  const output = recordedOutput();
  const [broken, whole] = [write('broken.csv', csvOfTable([[1, 2]])), write('whole.csv', csvOfTable([[1, 2], [3, 4]]))];
  expect(await reconcileCommand(['--json', broken, whole], output)).toBe(1);
  const [first, second] = output.answers.map((line) => JSON.parse(line) as { file: string; error?: { message: string } });
  expect(first?.error?.message).toMatch(/^This file brought out a defect: Error: a defect of ours\n +at /);
  expect(second).toEqual({ file: whole, panel: { puppies: 2 } });
});
