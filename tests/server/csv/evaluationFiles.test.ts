import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EvaluationFiles } from '#lib/contract/evaluationFiles';
import type { Snapshot } from '#lib/contract/snapshot';
import { usualPlan } from '#lib/contract/plan';
import { shortSheet } from '#lib/sheet/shippedSheets';
import { evaluationFiles } from '#server/csv/evaluationFiles';
import { systemRandom } from '#server/random';
import { parseScores } from '#server/csv/parseScores';
import type { PanelReport } from '#server/cli/panelReport';
import { reconcileCommand } from '#server/cli/reconcile';
import { lockCard } from '#tests/support/lockCard';
import { playWholeDay } from '#tests/support/playWholeDay';
import { playToReveal, scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';
import { recordedOutput, scoreFiles } from '../cli/scoreFiles';

const file = scoreFiles();
const rowsOf = (files: EvaluationFiles, name: string) =>
  parse<Record<string, string>>(files.files.find((one) => one.name === name)?.text ?? '', { bom: true, columns: true });

describe('files of an evaluation', () => {
  it('BL1: are refused before the first reveal, to the owner too', async () => {
    await using server = await startTestServer();
    const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
    await owner.api.evaluation.openRound.mutate({ id });
    for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, steadyCell);
    for (const client of [owner, ...Object.values(seats)]) {
      await expect(client.api.record.files.query({ id })).rejects.toThrow('wrong-phase');
      await lockCard(client, id);
    }
    await expect(server.stranger().api.record.files.query({ id })).rejects.toThrow('not-signed-in');
  });

  it('BL1: leave out a second round until it is revealed', async () => {
    await using server = await startTestServer();
    const day = await seedQuillmarsh(await server.owner(), { puppies: 2 });
    const { id, owner } = day;
    await playToReveal(day);
    const view = await owner.api.evaluation.get.query({ id });
    const criterion = view.sheet.criteria.find((one) => !one.handsOnly && !one.twoSided)?.key ?? '';
    const before = await owner.api.record.files.query({ id });
    await owner.api.evaluation.openSecondRound.mutate({
      id,
      cells: view.puppies.map((puppy) => ({ puppyId: puppy.id, criterion })),
    });
    const subject = (await owner.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
    const entry = {
      id: systemRandom.id(),
      subject,
      counter: 1,
      madeAt: 1,
      body: { kind: 'score', criterion, value: 1, cannotJudge: false },
    } as const;
    expect(await day.seats['mentor']?.api.card.submit.mutate({ id, entries: [entry] })).toMatchObject([
      { status: 'applied' },
    ]);
    for (const client of [owner, ...Object.values(day.seats)])
      expect(await client.api.record.files.query({ id })).toEqual(before);
  });

  it('BL8: leave out a second look until it closes, to the seat that answered too', async () => {
    await using server = await startTestServer();
    const day = await seedQuillmarsh(await server.owner(), { puppies: 2 });
    const { id, owner, seats } = day;
    const setup = await owner.api.setup.get.query({ id });
    const { name: called, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, plan } = setup;
    const slot = {
      taker: 'breeder',
      seatId: null,
      purpose: 'keep',
      sex: 'any',
      condition: '',
      byWhen: '',
      ifFails: '',
    } as const;
    await owner.api.setup.save.mutate({
      id,
      input: { name: called, heldOn, medium, callLink, callNumber, tableNote },
      sheetId,
      purposes,
      slots: [slot],
      order,
      plan,
    });
    await seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
    await playToReveal(day);
    const view = await owner.api.evaluation.get.query({ id });
    const [fern, moss] = view.puppies;
    const before = await owner.api.record.files.query({ id });
    const { lookIds } = await owner.api.look.open.mutate({
      id,
      slotId: view.slots[0]?.id ?? '',
      medium: 'table',
      pairs: [{ firstPuppyId: fern?.id ?? '', secondPuppyId: moss?.id ?? '' }],
    });
    const say = (client: TestClient | undefined) =>
      client?.api.look.answer.mutate({
        id,
        answer: { id: systemRandom.id(), lookId: lookIds[0] ?? '', choice: 'second', criterion: null, madeAt: 1 },
      });
    await say(seats['mentor']);
    for (const client of [owner, ...Object.values(seats)])
      expect(await client.api.record.files.query({ id })).toEqual(before);
    for (const client of [owner, seats['co-owner']]) await say(client);
    expect(
      rowsOf(await owner.api.record.files.query({ id }), 'second-looks.csv')
        .map((row) => [row['evaluator'], row['choice']])
        .toSorted(),
    ).toEqual([
      ['breeder', 'Moss'],
      ['co-owner', 'Moss'],
      ['mentor', 'Moss'],
    ]);
  });

  it('ST2: scores come back from the command as the board has them, purpose by purpose', async () => {
    await using server = await startTestServer();
    const day = await seedQuillmarsh(await server.owner(), { puppies: 4 });
    await playToReveal(day);
    const { id, owner, seats } = day;
    const kept = await (seats['photographer'] ?? owner).api.record.files.query({ id });
    const board = await owner.api.board.get.query({ id });
    const names = new Map(
      (await owner.api.evaluation.get.query({ id })).puppies.map((puppy) => [puppy.id, puppy.name]),
    );
    expect(kept.commands.map((one) => one.purpose)).toEqual(board.purposes.map((one) => one.key));
    for (const { purpose, command } of kept.commands) {
      const path = file('scores-round-1.csv', kept.files.find((one) => one.name === 'scores-round-1.csv')?.text ?? '');
      const output = recordedOutput();
      const args = command
        .replace('npm run -s reconcile -- ', '')
        .split(' ')
        .map((word) => (word === 'scores-round-1.csv' ? path : word));
      expect(await reconcileCommand(['--json', ...args], output)).toBe(0);
      const report = JSON.parse(output.answers[0] ?? '') as PanelReport;
      const merit = board.purposes.find((one) => one.key === purpose)?.merit ?? [];
      for (const one of merit) {
        const alone = report.merit.find((other) => other.puppy === names.get(one.puppy));
        expect([alone?.estimate, alone?.low, alone?.high]).toEqual(
          [one.estimate, one.low, one.high].map((figure) => expect.closeTo(figure, 6) as number),
        );
      }
    }
  });

  it('SC1: hold a whole day: both rounds, looks, picks and holds, and nothing of a removed person’s name', async () => {
    await using server = await startTestServer();
    const { id, owner } = await playWholeDay(server);
    const kept = await owner.api.record.files.query({ id });
    expect(kept.files.map((one) => one.name)).toEqual([
      'scores-round-1.csv',
      'scores-round-2.csv',
      'answers.csv',
      'checks.csv',
      'second-looks.csv',
      'decisions.csv',
      'holds.csv',
    ]);
    const scores = rowsOf(kept, 'scores-round-1.csv');
    const view = await owner.api.evaluation.get.query({ id });
    expect(scores.length).toBe(
      view.puppies.filter((one) => !one.withdrawn).length *
        view.seats.filter((seat) => seat.kind !== 'none').length *
        view.sheet.criteria.length,
    );
    // The photographer's words were removed; what it scored stays, under no name of its own.
    const answers = rowsOf(kept, 'answers.csv');
    expect(new Set(answers.map((row) => row['evaluator']))).toEqual(
      new Set(view.seats.filter((seat) => seat.kind !== 'none').map((seat) => seat.label)),
    );
    expect(kept.files.map(({ text }) => text).join('')).not.toContain('photographer');
    expect(rowsOf(kept, 'checks.csv')).toContainEqual(
      expect.objectContaining({ check: 'bite', answer: 'undershot', words: '2 mm' }),
    );
    const { decisions } = await owner.api.decision.get.query({ id });
    expect(rowsOf(kept, 'decisions.csv').map((row) => row['reason'])).toEqual(decisions.map((one) => one.reason));
    expect(rowsOf(kept, 'second-looks.csv').length).toBe(
      (await owner.api.look.list.query({ id })).flatMap((look) => look.answers ?? []).length,
    );
  });

  it('BL9: of an anonymous panel hold the viewer’s own answers and no other seat’s name beside a score', async () => {
    await using server = await startTestServer();
    const day = await seedQuillmarsh(await server.owner(), { puppies: 2 });
    const { id, owner, seats } = day;
    const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order } =
      await owner.api.setup.get.query({ id });
    await owner.api.setup.save.mutate({
      id,
      input: { name, heldOn, medium, callLink, callNumber, tableNote },
      sheetId,
      purposes,
      slots: [],
      order,
      plan: { ...usualPlan, discussion: 'anonymous' },
    });
    await seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
    await playToReveal(day);
    for (const [label, client] of [['breeder', owner], ...Object.entries(seats)] as const) {
      const kept = await client.api.record.files.query({ id });
      expect(kept).toMatchObject({ ownOnly: true, commands: [] });
      for (const name of ['scores-round-1.csv', 'answers.csv', 'checks.csv'])
        expect(new Set(rowsOf(kept, name).map((row) => row['evaluator']))).toEqual(new Set([label]));
    }
  });
});

/** Names as the contract lets them be typed, the dangerous ones often. */
const name = fc
  .tuple(
    fc.constantFrom('', '=', '+', '-', '@', '＝', '－', '"', ',', "'"),
    fc.string({ minLength: 1, maxLength: 8, unit: 'grapheme-ascii' }),
  )
  .map((parts) => parts.join('').trim())
  .filter((text) => text !== '');
const typed = (text: string): string => text.replace(/^[=+\-@＝＋－＠]/, "'$&");

describe('what does not count', () => {
  it('ST2: a second showing and an unfair day are among the answers and blank among the scores', () => {
    const first = revealed(
      ['Fern', 'Moss'],
      ['mentor'],
      [
        { p: 0, s: 0, value: 1 },
        { p: 1, s: 0, value: 2 },
      ],
    );
    const again = {
      seatId: 's0',
      subject: 'again',
      field: 'score:topline',
      counter: 1,
      body: { kind: 'score', criterion: 'topline', value: 3, cannotJudge: false },
    } as const;
    const unfair = {
      seatId: 's0',
      subject: 'w1',
      field: 'fair',
      counter: 1,
      body: { kind: 'fair', fair: false, why: 'asleep' },
    } as const;
    const round = {
      ...first,
      showings: [...first.showings, { id: 'again', puppyId: 'p0', place: 2, repeat: true }],
      answers: [...first.answers, again, unfair],
    };
    const kept = evaluationFiles({
      first: round,
      second: null,
      looks: [],
      holds: [],
      decisions: [],
      anonymous: false,
      viewerSeatId: null,
    });
    expect(rowsOf(kept, 'scores-round-1.csv').map((row) => [row['puppy'], row['score']])).toEqual([
      ['Fern', '1'],
      ['Moss', ''],
    ]);
    expect(
      rowsOf(kept, 'answers.csv').map((row) => [
        row['puppy'],
        row['showing'],
        row['kind'],
        row['answer'],
        row['words'],
      ]),
    ).toEqual([
      ['Fern', '1', 'score', '1', ''],
      ['Moss', '1', 'score', '2', ''],
      ['Fern', '2', 'score', '3', ''],
      ['Moss', '1', 'fair', 'not a fair day', 'asleep'],
    ]);
  });
});

describe('what people typed', () => {
  it('SC1: cannot start a formula, and every score comes back as it was, whatever the names', () => {
    const litter = fc.record({
      puppies: fc.uniqueArray(name, { minLength: 1, maxLength: 4 }),
      labels: fc.uniqueArray(name, { minLength: 1, maxLength: 3 }),
      values: fc.array(fc.option(fc.integer({ min: -3, max: 3 })), { minLength: 12, maxLength: 12 }),
    });
    fc.assert(
      fc.property(litter, ({ puppies, labels, values }) => {
        const cells = puppies.flatMap((puppy, p) =>
          labels.map((label, s) => ({ puppy, label, p, s, value: values[p * 3 + s] ?? null })),
        );
        const { files } = evaluationFiles({
          first: revealed(puppies, labels, cells),
          second: null,
          looks: [],
          holds: [],
          decisions: [],
          anonymous: false,
          viewerSeatId: null,
        });
        const read = parseScores(files[0]?.text ?? '', {
          scale: { low: 1, high: 7 },
          twoSided: new Set(['topline']),
          maxCharacters: 200_000,
        });
        const rows =
          'error' in read ? read.error : read.rows.map(({ puppy, evaluator, score }) => [puppy, evaluator, score]);
        expect(rows).toEqual(cells.map(({ puppy, label, value }) => [typed(puppy), typed(label), value]));
        for (const { text } of files)
          for (const field of parse(text, { bom: true }).flat()) expect(field).toMatch(/^(?![=+@＝＋－＠]|-\D)/);
      }),
    );
  });
});

type TypedCell = { readonly p: number; readonly s: number; readonly value: number | null };

/** One two-sided criterion, each puppy shown once. */
function revealed(puppies: readonly string[], labels: readonly string[], cells: readonly TypedCell[]): Snapshot {
  const criterion = shortSheet.criteria.find((one) => one.twoSided);
  if (!criterion) throw new Error('no two-sided criterion');
  return {
    evaluationId: 'e',
    roundId: 'r',
    medium: 'table',
    revealedAt: 1,
    cells: null,
    coded: false,
    slots: [],
    purposes: [],
    sheet: { ...shortSheet, criteria: [{ ...criterion, key: 'topline' }] },
    puppies: puppies.map((one, at) => ({
      id: `p${at}`,
      name: one,
      sex: 'bitch',
      collar: 'blue',
      secondMark: '',
      withdrawn: false,
    })),
    seats: labels.map((label, at) => ({
      id: `s${at}`,
      label,
      kind: 'hands',
      position: at,
      locked: true,
      reissued: false,
      typed: false,
    })),
    showings: puppies.map((_, at) => ({ id: `w${at}`, puppyId: `p${at}`, place: at, repeat: false })),
    answers: cells.map(({ p, s, value }) => ({
      seatId: `s${s}`,
      subject: `w${p}`,
      field: 'score:topline',
      counter: 1,
      body: { kind: 'score', criterion: 'topline', value, cannotJudge: value === null },
    })),
  };
}
