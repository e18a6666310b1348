import { expect, it } from 'vitest';
import { panelReport } from '#server/cli/panelReport';
import { reconcileCommand } from '#server/cli/reconcile';
import { csvOfTable, recordedOutput, scoreFiles } from './scoreFiles';

const defective: typeof panelReport = (panel, options) => {
  if (panel.puppies.length === 1) throw new Error('a defect of ours');
  return panelReport(panel, options);
};

const write = scoreFiles();

it('a defect is told with its place, costs its own file only, and shows in the status', async () => {
  const output = recordedOutput();
  const [broken, whole] = [
    write('broken.csv', csvOfTable([[1, 2]])),
    write(
      'whole.csv',
      csvOfTable([
        [1, 2],
        [3, 4],
      ]),
    ),
  ];
  expect(await reconcileCommand(['--json', broken, whole], output, defective)).toBe(1);
  const [first, second] = output.answers.map(
    (line) => JSON.parse(line) as { file: string; error?: { message: string } },
  );
  expect(first?.error?.message).toMatch(/^This file brought out a defect: Error: a defect of ours\n +at /);
  expect(second).toMatchObject({ file: whole, panel: { puppies: 2 } });
});
