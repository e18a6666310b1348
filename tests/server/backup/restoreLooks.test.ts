import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backUp } from '#db/backUp';
import { type Db, open } from '#db/open';
import { findRecordFault, listRecord } from '#db/queries/record';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { listLooks } from '#db/queries/looks';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { restoreData, RestoreRefused } from '#server/backup/restoreData';
import { cardsHash } from '#server/write/commitCards';
import { answerLook, closeLook, openLook } from '#server/commands/looks';
import { closeRound, reopenRound } from '#server/commands/rounds';
import { lockSeat } from '#server/commands/cards';
import { listLookViews } from '#server/reveal/looks';
import { revealRound } from '#server/reveal/revealRound';
import type { Runtime } from '#server/runtime';
import { askerOf, dayRuntime, makeDay, type Day } from '#tests/support/makeDay';

const at = Date.UTC(2026, 8, 12, 20);
const places = ['the second looks for place 1 of “Eight weeks”'];
let folder = '';
let file = '';
let backup = '';
let day: Day;
let runtime: Runtime;
let batch: { readonly id: string; readonly lookIds: readonly string[] };

const facts = (): EvaluationFacts => getEvaluationFacts(runtime.db, day.facts.id);
/** The device at one place of the day's list; the first is the owner's. */
const asker = (place: number) => askerOf(runtime, day, day.devices[place] ?? { id: '', seatId: '' });
const leader = () => ({ owner: true, seatId: facts().seats[0]?.id ?? null, leads: true });

/** A revealed day with a batch of second looks open, one answer in it, and a backup of that moment. */
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-restore-looks-'));
  file = join(folder, 'evenstack.db');
  backup = join(folder, 'evenstack-backup.db');
  runtime = dayRuntime(open(file));
  day = makeDay(runtime, { seats: 2, devicesPerSeat: 1 });
  lockOwner();
  closeRound(runtime, day.facts.id);
  revealRound(runtime, day.facts.id);
  batch = openPair();
  reply(1, 'first');
  await backUp(file, backup);
});

afterEach(() => {
  runtime.db.$client.close();
  rmSync(folder, { recursive: true, force: true });
});

function lockOwner(): void {
  const { seatId } = day.devices[0] ?? { seatId: '' };
  const nonce = '0'.repeat(32);
  const roundId = facts().round?.id ?? '';
  lockSeat(asker(0), {
    evaluationId: day.facts.id,
    promised: { nonce, commitment: cardsHash(nonce, { roundId, seatId, answers: [] }) },
  });
}

function openPair() {
  const [first, second] = facts().puppies;
  const pairs = [{ firstPuppyId: first?.id ?? '', secondPuppyId: second?.id ?? '' }];
  return openLook(asker(0), {
    evaluationId: day.facts.id,
    question: { slotId: facts().slots[0]?.id ?? '', medium: 'table', pairs },
  });
}

function reply(place: number, choice: 'first' | 'second' | 'tie'): void {
  answerLook(asker(place), {
    evaluationId: day.facts.id,
    answer: { id: runtime.random.id(), lookId: batch.lookIds[0] ?? '', choice, criterion: null, madeAt: 1 },
  });
}

const close = () => closeLook(asker(0), { evaluationId: day.facts.id, batchId: batch.id });

/** Stops the server, restores, and starts it again on what is there. */
async function restore(spoil: () => void = () => undefined) {
  runtime.db.$client.close();
  for (const part of ['-wal', '-shm']) rmSync(`${file}${part}`, { force: true });
  spoil();
  const report = await restoreData({ backup, file, at });
  runtime = { ...runtime, db: open(file) };
  return report;
}

const refusalOf = async (work: Promise<unknown>): Promise<string> => {
  const error: unknown = await work.catch((fault: unknown) => fault);
  if (!(error instanceof RestoreRefused)) throw new Error(`not refused: ${String(error)}`);
  return error.message;
};

const states = (db: Db = runtime.db) => [...new Set(listLooks(db, day.facts.id).map((look) => look.state))];
const lines = () => listRecord(runtime.db, day.facts.id).map(({ kind, detail }) => `${kind}: ${detail}`);
const code = (expected: string): unknown => expect.objectContaining({ code: expected });

it.each([
  ['missing', () => rmSync(file)],
  ['unreadable', () => writeFileSync(file, 'damaged beyond reading')],
  ['unrelated', () => (rmSync(file), open(file).$client.close())],
] as const)(
  'BL8: where the file it replaces is %s, an open batch comes back closed: nobody answers it, and it is shown once, as it stood',
  async (current, spoil) => {
    reply(0, 'second');
    reply(2, 'second');
    expect(states()).toEqual(['revealed']);
    expect(await restore(spoil)).toMatchObject({ current, closed: { rounds: [], looks: places } });
    expect(states()).toEqual(['closed']);
    expect(lines()).toContain('look-stopped: place 1, restored without the file it replaces');
    expect(findRecordFault(runtime.db)).toBeNull();
    expect(() => reply(0, 'second')).toThrow(code('wrong-phase'));
    expect(() => openPair()).toThrow(code('still-open'));
    const shown = () => listLookViews(runtime, facts(), { viewer: leader(), deviceId: day.devices[0]?.id ?? '' })[0];
    expect(shown()).toMatchObject({ state: 'closed', mayAnswer: false, answers: null });
    expect(() => closeLook(asker(1), { evaluationId: day.facts.id, batchId: batch.id })).toThrow(code('not-allowed'));
    close();
    expect(shown()).toMatchObject({ state: 'revealed', answers: [{ seat: day.devices[1]?.seatId, choice: 'first' }] });
    expect(close).toThrow(code('wrong-phase'));
    expect(openPair().lookIds.length).toBe(1);
  },
);

it('BL8: a batch that the file in use knows to be revealed is not opened again: the backup is refused, and nothing changes', async () => {
  close0();
  expect(await refusalOf(restore())).toBe(
    'Restoring would open again what has been revealed: second look 1 of “Eight weeks”. A reveal is for good. Choose a later backup.',
  );
  runtime = { ...runtime, db: open(file) };
  expect(states()).toEqual(['revealed']);
});

function close0(): void {
  reply(0, 'first');
  close();
}

it('BL8: a batch that is open in both stays open, and the answers that the backup lacks are counted in the record', async () => {
  reply(0, 'second');
  const report = await restore();
  expect(report).toMatchObject({
    current: 'related',
    closed: { rounds: [], looks: [] },
    lost: ['1 answer to a second look of “Eight weeks”'],
  });
  expect(states()).toEqual(['open']);
  expect(lines().find((line) => line.startsWith('restored'))).toMatch(
    /; not in the backup: 1 answer to a second look$/,
  );
  reply(0, 'tie');
  reply(2, 'tie');
  expect(states()).toEqual(['revealed']);
});

it('BL7, BL8: what came back closed stays closed when the same backup is put over it a second time', async () => {
  await restore(() => rmSync(file));
  expect(await restore()).toMatchObject({ current: 'related', closed: { looks: places } });
  expect(states()).toEqual(['closed']);
  expect(lines()).toContain('look-stopped: place 1, not open in the file that the backup replaces');
});

it('BL7, BL8: an earlier state put in place by hand is no witness that nothing was revealed after the backup', async () => {
  const earlier = join(folder, 'earlier.db');
  copyFileSync(backup, earlier);
  reply(0, 'first');
  close();
  batch = openPair();
  await backUp(file, backup);
  close0();
  expect(await restore(() => copyFileSync(earlier, file))).toMatchObject({
    current: 'unrelated',
    closed: { rounds: [], looks: places },
  });
  expect(states()).toEqual(['revealed', 'closed']);
});

it('BL7: a round that the file in use holds closed does not come back open; the owner reopens it on the record', async () => {
  const fresh = join(folder, 'fresh');
  runtime.db.$client.close();
  file = join(fresh, 'evenstack.db');
  runtime = dayRuntime(open(file));
  day = makeDay(runtime, { seats: 1, devicesPerSeat: 1 });
  await backUp(file, backup);
  lockOwner();
  closeRound(runtime, day.facts.id);
  expect(await restore()).toMatchObject({
    current: 'related',
    closed: { rounds: ['the first round of “Eight weeks”'] },
  });
  expect(facts().round?.state).toBe('closed');
  expect(lines()).toContain('round-closed: not open in the file that the backup replaces');
  reopenRound(runtime, day.facts.id);
  expect(facts().round?.state).toBe('open');
});
