import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { open } from '#db/open';
import { listOwnAnswers } from '#db/queries/entries';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { importLimits } from '#lib/contract/fileLimits';
import { usualPlan } from '#lib/contract/plan';
import { shortSheet } from '#lib/sheet/shippedSheets';
import { blankScores, importScores } from '#server/commands/imports';
import { openRound } from '#server/commands/rounds';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { askerOf, dayRuntime, makeDay } from '#tests/support/makeDay';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

async function openTable() {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner());
  await quillmarsh.owner.api.evaluation.openRound.mutate({ id: quillmarsh.id });
  const view = await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id });
  const [first, second] = view.sheet.criteria.filter((one) => !one.twoSided && !one.handsOnly);
  if (!first || !second) throw new Error('no criteria');
  const file = (...rows: string[]) => ['puppy,evaluator,criterion,score', ...rows].join('\n');
  return {
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
    server,
    ...quillmarsh,
    first,
    second,
    file,
    mentor: quillmarsh.seats['mentor'],
  };
}

it('SC2: a file with faults is refused with line, column and how many more, and nothing is imported', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first } = table;
  const before = dataOf(server.runtime.db);
  const text = file(`Fern,mentor,${first.key},4`, `Moss,mentor,${first.key},nine`, `Sorrel,mentor,${first.key},12`);
  for (const call of [mentor?.api.card.previewImport, mentor?.api.card.importScores]) {
    await expect(call?.mutate({ id, text })).rejects.toMatchObject({
      data: { code: 'bad-input', details: { line: 3, column: 4, more: 1 } },
    });
  }
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC2: every row’s fate is shown before anything is written, and one bad row holds back all', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first, second } = table;
  await mentor?.api.card.importScores.mutate({
    id,
    text: file(`Fern,mentor,${first.key},4`, `Moss,mentor,${first.key},2`),
  });
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
  expect(preview?.rows.map((row) => row.fate)).toEqual([
    'same',
    'replaces',
    'new',
    'blank',
    'off-step',
    'unknown-puppy',
    'another-seat',
    'unknown-criterion',
  ]);
  expect(preview?.sound).toBe(false);
  await expect(mentor?.api.card.importScores.mutate({ id, text })).rejects.toMatchObject({
    data: { code: 'bad-input' },
  });
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC3: imported scores are entries like any other, and the earlier ones stay in the history', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first } = table;
  await mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},4`) });
  await mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},6`) });
  const mine = await mentor?.api.card.mine.query({ id });
  expect(mine?.answers.map((answer) => answer.body)).toEqual([
    { kind: 'score', criterion: first.key, value: 6, cannotJudge: false },
  ]);
  expect(server.runtime.db.$client.prepare('SELECT count(*) AS n FROM entry').get()).toEqual({ n: 2 });
});

it('SC5: after the lock nothing is imported', async () => {
  await using table = await openTable();
  const { id, mentor, file, first } = table;
  await lockCard(mentor, id);
  await expect(
    mentor?.api.card.importScores.mutate({ id, text: file(`Fern,mentor,${first.key},4`) }),
  ).rejects.toMatchObject({ data: { code: 'wrong-phase' } });
});

it('BL1: the file to fill in holds the asker’s own seat and no score, and only what that seat may score', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { sheet: 'full' });
  const mentor = seats['mentor'] ?? owner;
  await owner.api.evaluation.openRound.mutate({ id });
  const { sheet, puppies } = await owner.api.evaluation.get.query({ id });
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: puppies[3]?.id ?? '', reason: 'tired' });
  const of = async (client: TestClient) =>
    parse((await client.api.card.template.query({ id })).text, { bom: true, columns: true });
  const mine = await of(mentor);
  const looking = sheet.criteria.filter((one) => !one.handsOnly).map((one) => one.key);
  expect(mine).toEqual(
    ['Fern', 'Moss', 'Sorrel'].flatMap((puppy) =>
      looking.map((criterion) => ({ puppy, evaluator: 'mentor', criterion, score: '' })),
    ),
  );
  expect((await of(owner)).length).toBe(3 * sheet.criteria.length);
  expect(looking.length).toBeLessThan(sheet.criteria.length);
  await mentor.api.card.importScores.mutate({
    id,
    text: `puppy,evaluator,criterion,score\nFern,mentor,${looking[0]},1`,
  });
  expect(await of(mentor)).toEqual(mine);
  const preview = await mentor.api.card.previewImport.mutate({
    id,
    text: (await mentor.api.card.template.query({ id })).text,
  });
  expect([preview.sound, new Set(preview.rows.map((row) => row.fate))]).toEqual([true, new Set(['blank'])]);
});

it('BL2: a seat that sees codes is given codes to fill in, its file is read by them, and a name tells it nothing', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 4, medium: 'photographs' });
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order } =
    await owner.api.setup.get.query({ id });
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: [],
    order,
    plan: { ...usualPlan, identity: 'coded' },
  });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const mentor = seats['mentor'] ?? owner;
  const { text } = await mentor.api.card.template.query({ id });
  expect(text).toContain('Puppy A,mentor,');
  expect(text).not.toMatch(/Fern|Moss|Sorrel|Sedge/);
  const criterion = /,mentor,([a-z-]+),/.exec(text)?.[1] ?? '';
  const fateOf = async (puppy: string) =>
    (
      await mentor.api.card.previewImport.mutate({
        id,
        text: `puppy,evaluator,criterion,score\n${puppy},mentor,${criterion},1`,
      })
    ).rows[0]?.fate;
  expect([await fateOf('Puppy A'), await fateOf('Fern'), await fateOf('Nettle')]).toEqual([
    'new',
    'unknown-puppy',
    'unknown-puppy',
  ]);
});

it('SC2: one cell written in two ways is told, and neither is taken', async () => {
  await using table = await openTable();
  const { server, id, mentor, file, first } = table;
  const before = dataOf(server.runtime.db);
  const text = file(`Fern,mentor,${first.key},4`, `FERN,mentor,${first.name},6`);
  const preview = await mentor?.api.card.previewImport.mutate({ id, text });
  expect(preview?.rows.map((row) => row.fate)).toEqual(['new', 'twice']);
  await expect(mentor?.api.card.importScores.mutate({ id, text })).rejects.toMatchObject({
    data: { code: 'bad-input' },
  });
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC1: every score typed into the file to fill in is the score that is kept, whatever the names', () => {
  const name = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 12 })
    .map((text) => text.normalize('NFC').trim())
    .filter((text) => /^[^\p{Cc}'"]+$/u.test(text));
  const names = fc.uniqueArray(
    fc.tuple(fc.constantFrom('', '=', '+', '-', '@'), name).map((parts) => parts.join('')),
    { minLength: 3, maxLength: 3, selector: (text) => text.toLowerCase() },
  );
  fc.assert(
    fc.property(
      names,
      fc.array(fc.option(fc.integer({ min: 1, max: 7 })), { minLength: 24, maxLength: 24 }),
      ([label = '', ...puppies], values) => {
        const db = open(':memory:');
        const runtime = dayRuntime(db);
        const day = makeDay(runtime, { puppies: 2, seats: 1, devicesPerSeat: 1, opened: false });
        db.$client.prepare('UPDATE seat SET label = ? WHERE owner = 0').run(label);
        for (const [at, puppy] of puppies.entries())
          db.$client.prepare('UPDATE puppy SET name = ? WHERE position = ?').run(puppy, at);
        openRound(runtime, { evaluationId: day.facts.id, unconfirmed: true });
        const facts = getEvaluationFacts(db, day.facts.id);
        const seat = facts.seats.find((one) => !one.owner);
        const device = day.devices.find((one) => one.seatId === seat?.id);
        if (!seat || !device) throw new Error('no seat');
        const viewer = { owner: false, seatId: seat.id, leads: false };
        const rows = z.array(z.array(z.string())).parse(parse(blankScores(facts, { viewer, seat }), { bom: true }));
        const filled = rows.slice(1).map((row, at) => {
          const twoSided = facts.sheet.criteria.find((one) => one.key === row[2])?.twoSided === true;
          const value = values[at % values.length] ?? null;
          return { row, value: value === null ? null : twoSided ? value - 4 : value };
        });
        const text = stringify([rows[0] ?? [], ...filled.map(({ row, value }) => [...row.slice(0, 3), value])]);
        importScores(askerOf(runtime, day, device), { evaluationId: facts.id, text });
        const kept = listOwnAnswers(db, { seatId: seat.id, roundId: facts.round?.id ?? '', deviceId: null }).flatMap(
          ({ body }) => (body.kind === 'score' ? [body.value] : []),
        );
        expect(kept.toSorted()).toEqual(filled.flatMap(({ value }) => value ?? []).toSorted());
        expect(kept.length).toBe(filled.filter(({ value }) => value !== null).length);
        db.$client.close();
      },
    ),
    { numRuns: 20 },
  );
});

/** Twenty puppies and forty criteria, as many as a litter and a sheet may have. */
async function largestTable(server: TestServer) {
  const owner = await server.owner();
  const { id: litterId } = await owner.api.litter.save.mutate({
    id: null,
    litter: { name: 'Large', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' },
  });
  const puppies = Array.from({ length: 20 }, (_, at) => `Puppy number ${at + 1}`);
  for (const puppy of puppies)
    await owner.api.litter.savePuppy.mutate({
      litterId,
      puppyId: null,
      puppy: { name: puppy, sex: 'dog', collar: 'none', secondMark: '', chipDigits: '' },
    });
  const [like] = shortSheet.criteria.filter((one) => !one.twoSided);
  if (!like) throw new Error('no criterion');
  const criteria = Array.from({ length: 40 }, (_, at) => ({
    ...like,
    key: `c-${at + 1}`,
    name: `Criterion ${at + 1}`,
    handsOnly: false,
  }));
  const { id: sheetId } = await owner.api.sheet.save.mutate({
    id: null,
    sheet: { ...shortSheet, name: 'Large', criteria },
  });
  const { id } = await owner.api.setup.create.mutate({
    litterId,
    sheetId,
    input: { name: 'Large', heldOn: '2026-09-12', medium: 'table', callLink: '', callNumber: '', tableNote: '' },
  });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const seat = (await owner.api.evaluation.get.query({ id })).seats[0]?.label ?? '';
  const score = (at: number) => (at % 7) + 1;
  const cells = puppies.flatMap((puppy) => criteria.map(({ key }) => [puppy, key] as const));
  const linesOf = (evaluator: string) => cells.map(([puppy, key], at) => `${puppy},${evaluator},${key},${score(at)}`);
  return { owner, id, seat, cells, score, linesOf };
}

it('SC1: 10,000 rows are all read; the 800 of one’s own arrive whole and each as typed, and one row more than may be is refused by its number', async () => {
  await using server = await startTestServer();
  const { owner, id, seat, cells, score, linesOf } = await largestTable(server);
  const file = (rows: readonly string[]) => ['puppy,evaluator,criterion,score', ...rows].join('\n');
  const others = Array.from({ length: 12 }, (_, at) => linesOf(`seat ${at + 1}`))
    .flat()
    .slice(0, importLimits.rows - cells.length);
  const before = dataOf(server.runtime.db);
  const panel = file([...others, ...linesOf(seat)]);
  const preview = await owner.api.card.previewImport.mutate({ id, text: panel });
  const counts = (fate: string) => preview.rows.filter((row) => row.fate === fate).length;
  expect([preview.rows.length, counts('another-seat'), counts('new'), preview.sound]).toEqual([
    10_000,
    9_200,
    800,
    false,
  ]);
  expect(preview.rows.map((row) => row.line)).toEqual(Array.from({ length: 10_000 }, (_, at) => at + 2));
  await expect(owner.api.card.importScores.mutate({ id, text: panel })).rejects.toMatchObject({
    data: { code: 'bad-input' },
  });
  const tooMany = file([...others, ...linesOf(seat), `Puppy number 1,one more,c-1,3`]);
  await expect(owner.api.card.importScores.mutate({ id, text: tooMany })).rejects.toMatchObject({
    data: {
      code: 'bad-input',
      details: { line: 10_002, column: 1, message: 'The file has 10001 rows; the limit is 10000.' },
    },
  });
  await expect(
    owner.api.card.importScores.mutate({ id, text: `${file(linesOf(seat))}\n${'ü'.repeat(importLimits.bytes / 2)}` }),
  ).rejects.toMatchObject({
    data: { details: { message: expect.stringMatching(/bytes; the limit is 480000/) as unknown } },
  });
  expect(dataOf(server.runtime.db)).toBe(before);
  await owner.api.card.importScores.mutate({ id, text: file(linesOf(seat)) });
  const view = await owner.api.evaluation.get.query({ id });
  const nameOf = new Map(
    view.round?.showings.map((showing) => [
      showing.id,
      view.puppies.find((puppy) => puppy.id === showing.puppyId)?.name ?? '',
    ]),
  );
  const { answers } = await owner.api.card.mine.query({ id });
  const kept = new Map(
    answers.map(({ subject, body }) => [
      `${nameOf.get(subject)} ${body.kind === 'score' ? body.criterion : ''}`,
      body.kind === 'score' ? body.value : null,
    ]),
  );
  expect(kept).toEqual(new Map(cells.map(([puppy, key], at) => [`${puppy} ${key}`, score(at)])));
});
