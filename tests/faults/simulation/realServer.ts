import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { type Db, open } from '#db/open';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { getSnapshot } from '#db/queries/results';
import { getVersion } from '#db/queries/versions';
import { listOwnAnswers } from '#db/queries/entries';
import type { Answer, Entry } from '#lib/contract/entry';
import { entryBodySchema } from '#lib/contract/entry';
import { DomainError } from '#lib/errors';
import { cardsHash } from '#server/write/commitCards';
import { closeRound, reopenRound } from '#server/commands/rounds';
import { lockSeat, submitEntries } from '#server/commands/cards';
import { createHub } from '#server/live/hub';
import { revealRound } from '#server/reveal/revealRound';
import type { Runtime } from '#server/runtime';
import { askerOf, dayRuntime, type Day } from '#tests/support/makeDay';
import { seededIds } from '#tests/support/seededIds';
import { roundFor } from './pureServer';
import type { Bell, KeptEntry, SimulatedServer } from './simulatedServer';

type Row = {
  id: string;
  subject: string;
  counter: number;
  madeAt: number;
  body: string;
  seatId: string;
  deviceId: string;
  status: KeptEntry['status'];
};

/** The real commands on a copy of a day's data file; a crash leaves the file and its log behind as kill -9 does. */
export function realServer(day: Day, template: string, file: string): SimulatedServer {
  copyFileSync(template, file);
  let place = file;
  let crashes = 0;
  let now = 1_789_000_100_000;
  let bells: Bell[] = [];
  const hub = createHub();
  const random = seededIds(file);
  hub.subscribe(({ seat }) => bells.push({ seatId: seat?.id ?? null }));
  const around = { hub, random, clock: { now: () => now } };
  let runtime: Runtime = dayRuntime(open(place), around);
  const evaluationId = day.facts.id;
  const roundId = day.facts.round?.id ?? '';
  const remove = (path: string) =>
    ['', '-wal', '-shm', '.lock'].forEach((part) => rmSync(`${path}${part}`, { force: true }));
  const agreed = (work: () => void): boolean => {
    try {
      work();
      return true;
    } catch (error) {
      if (error instanceof DomainError) return false;
      throw error;
    }
  };
  return {
    submit: ({ seatId, deviceId }, entries) =>
      submitEntries(askerOf(runtime, day, { id: deviceId, seatId }), { evaluationId, entries }),
    lock: (from, shown) =>
      agreed(() => {
        const nonce = random.id();
        lockSeat(askerOf(runtime, day, { id: from.deviceId, seatId: from.seatId }), {
          evaluationId,
          promised: { nonce, commitment: cardsHash(nonce, { roundId, seatId: from.seatId, answers: shown }) },
        });
      }),
    close: () => agreed(() => closeRound(runtime, evaluationId)),
    reopen: () => agreed(() => reopenRound(runtime, evaluationId)),
    reveal: () => agreed(() => revealRound(runtime, evaluationId)),
    read: (seatId) => ({
      answers: listOwnAnswers(runtime.db, { seatId, roundId, deviceId: null }),
      all: getVersion(runtime.db, evaluationId, 'all'),
      own: getVersion(runtime.db, evaluationId, `seat:${seatId}`),
      round: roundFor(getEvaluationFacts(runtime.db, evaluationId), seatId),
    }),
    crash: () => {
      const next = `${file}-${(crashes += 1)}`;
      for (const part of ['', '-wal'])
        if (existsSync(`${place}${part}`)) copyFileSync(`${place}${part}`, `${next}${part}`);
      runtime.db.$client.close();
      remove(place);
      place = next;
      runtime = dayRuntime(open(place), around);
    },
    // The restore command itself is held to this over the real server, in tests/server/backup/sentAgain.test.ts.
    backUp: () => undefined,
    restore: () => null,
    setClock: (at) => {
      now = at;
    },
    takeBells: () => {
      const rung = bells;
      bells = [];
      return rung;
    },
    history: (from = 0) => historyOf(runtime.db, from),
    snapshot: (seatId) => {
      if (getEvaluationFacts(runtime.db, evaluationId).round?.state !== 'revealed') return null;
      const body = getSnapshot(runtime.db, roundId);
      return snapshotAnswers(body?.body.answers ?? [], seatId);
    },
    end: () => {
      runtime.db.$client.close();
      remove(place);
    },
  };
}

function historyOf(db: Db, from: number): KeptEntry[] {
  return db.$client
    .prepare<[number], Row>(
      'SELECT id, subject, counter, made_at AS madeAt, body, seat_id AS seatId, device_id AS deviceId, status FROM entry WHERE rowid > ? ORDER BY rowid',
    )
    .all(from)
    .map(({ seatId, deviceId, status, body, ...row }) => ({
      seatId,
      deviceId,
      status,
      entry: { ...row, body: entryBodySchema.parse(JSON.parse(body)) } satisfies Entry,
    }));
}

function snapshotAnswers(
  answers: readonly (Omit<Answer, 'counter'> & { readonly seatId: string })[],
  seatId: string,
): Answer[] {
  return answers
    .filter((one) => one.seatId === seatId)
    .map(({ subject, field, body }) => ({ subject, field, counter: 0, body }));
}
