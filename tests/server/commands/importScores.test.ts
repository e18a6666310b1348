import { expect, it } from 'vitest';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

async function openTable() {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner());
  await quillmarsh.owner.api.evaluation.openRound.mutate({ id: quillmarsh.id });
  const view = await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id });
  const [first, second] = view.sheet.criteria.filter((one) => !one.twoSided && !one.handsOnly);
  if (!first || !second) throw new Error('no criteria');
  const file = (...rows: string[]) => ['puppy,evaluator,criterion,score', ...rows].join('\n');
  return { [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](), server, ...quillmarsh, first, second, file, mentor: quillmarsh.seats['mentor'] };
}

it('SC2: a file with faults is refused with line, column and how many more, and nothing is imported', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first } = table;
  const before = dataOf(server.runtime.db);
  const text = file(`Fern,mentor,${first.key},4`, `Moss,mentor,${first.key},nine`, `Sorrel,mentor,${first.key},12`);
  for (const call of [mentor?.api.card.previewImport, mentor?.api.card.importScores]) {
    await expect(call?.mutate({ id, text })).rejects.toMatchObject({ data: { code: 'bad-input', details: { line: 3, column: 4, more: 1 } } });
  }
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC2: every row’s fate is shown before anything is written, and one bad row holds back all', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first, second } = table;
  await mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},4`, `Moss,mentor,${first.key},2`) });
  const before = dataOf(server.runtime.db);
  const text = file(
    `Fern,Mentor,${first.name},4`,
    `Moss,mentor,${first.key},3`,
    `Sorrel,mentor,${second.key},5`,
    `Sedge,mentor,${second.key},`,
    `Sedge,mentor,${first.key},2.5`,
    `Nettle,mentor,${first.key},5`,
    `Fern,co-owner,${first.key},5`,
    'Fern,mentor,charm,5',
  );
  const preview = await mentor?.api.card.previewImport.mutate({ id, text });
  expect(preview?.rows.map((row) => row.fate)).toEqual(['same', 'replaces', 'new', 'blank', 'off-step', 'unknown-puppy', 'another-seat', 'unknown-criterion']);
  expect(preview?.sound).toBe(false);
  await expect(mentor?.api.card.importScores.mutate({ id, text })).rejects.toMatchObject({ data: { code: 'bad-input' } });
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC3: imported scores are entries like any other, and the earlier ones stay in the history', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first } = table;
  await mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},4`) });
  await mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},6`) });
  const mine = await mentor?.api.card.mine.query({ id });
  expect(mine?.answers.map((answer) => answer.body)).toEqual([{ kind: 'score', criterion: first.key, value: 6, cannotJudge: false }]);
  expect(server.runtime.db.$client.prepare('SELECT count(*) AS n FROM entry').get()).toEqual({ n: 2 });
});

it('SC5: after the lock nothing is imported', async () => {
  await using table = await openTable();
  const { id, mentor, file, first } = table;
  await lockCard(mentor, id);
  await expect(mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},4`) })).rejects.toMatchObject({ data: { code: 'wrong-phase' } });
});
