import { readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { listOwnAnswers } from '#db/queries/entries';
import { commitmentsView, openedView } from '#lib/blind/commitmentViews';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { appRouter } from '#server/api/router';
import { functionsOf } from '#tests/support/functionsOf';
import { listenLive } from '#tests/support/listenLive';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

/*
 * Four fences, each by itself: any of them may fail without a leak. The view of an evaluation and of a look:
 * tests/lib/blind/evaluationView.test.ts. Who may import what: tests/config/fences.test.ts.
 */

const queries = new URL('../../db/queries/', import.meta.url);

/** Every function and constant of a room, by the name of its file and its own. */
const inRoom = (room: URL) =>
  readdirSync(room, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .flatMap((file) =>
      functionsOf(new URL(file, room)).map(({ name, text }) => ({ at: `${file.replace(/\.ts$/, '')}.${name}`, text })),
    );

it('BL1: fence 1, the query: outside its own room no query reads what was said or what opens it without naming one seat', () => {
  const reading = inRoom(queries)
    .filter(({ at }) => !at.startsWith('unblinded/'))
    .filter(({ text }) => /\b(answer|entry|lookAnswer)\.(body|value|choice|criterion)\b|commitment\.nonce/.test(text));
  // The removal of a person's words rewrites them and hands nothing out but snapshots, which are revealed.
  const removing = ['seats.removeWords', 'seats.withoutWords'];
  const open = reading.filter(
    ({ at, text }) => !removing.includes(at) && !/eq\((answer|entry|lookAnswer)\.seatId, /.test(text),
  );
  expect(open.map(({ at }) => at)).toEqual([]);
  expect(reading.map(({ at }) => at)).toContain('entries.listOwnAnswers');
});

it('BL1: fence 1, the query: asked for one seat, the store gives that seat’s answers, with every rule above it out of the way', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const { round, seats } = await owner.api.evaluation.get.query({ id });
  const counts = new Map(
    server.runtime.db.$client
      .prepare<[], { seat: string; n: number }>('SELECT seat_id AS seat, count(*) AS n FROM answer GROUP BY seat_id')
      .all()
      .map((row) => [row.seat, row.n]),
  );
  for (const seat of seats) {
    const own = listOwnAnswers(server.runtime.db, { seatId: seat.id, roundId: round?.id ?? '', deviceId: null });
    expect(own.length).toBe(counts.get(seat.id));
  }
});

it('BL2: fence 2, the view: commitments are in no view of an open round, and a nonce is in none before it is opened', () => {
  const commitment = { seat: 'a'.repeat(32), hash: 'b'.repeat(64), by: 'device', nonce: 'quince' } as const;
  const facts = (state: 'open' | 'closed') => ({ round: { state }, seats: [] }) as unknown as EvaluationFacts;
  expect(commitmentsView(facts('open'), [commitment])).toBeNull();
  expect(JSON.stringify(commitmentsView(facts('closed'), [commitment]))).not.toContain('quince');
});

it('BL9: fence 2, the view: an anonymous panel opens to a seat its own card only', () => {
  const snapshot = { roundId: 'e'.repeat(32), seats: [], answers: [] } as unknown as Parameters<typeof openedView>[0];
  const commitments = ['1', '2'].map((digit) => ({
    seat: digit.repeat(32),
    hash: 'b'.repeat(64),
    by: 'device' as const,
    nonce: 'c'.repeat(32),
  }));
  const opened = (only: string | null) =>
    openedView(snapshot, { commitments, wordsRemoved: new Set(), only }).map((one) => one.seat);
  expect(opened('2'.repeat(32))).toEqual(['2'.repeat(32)]);
  expect(opened('')).toEqual([]);
  expect(opened(null)).toHaveLength(2);
});

type Definition = { readonly output?: unknown };
type Inner = {
  readonly type: string;
  readonly catchall?: z.core.$ZodType;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly innerType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
  readonly valueType?: z.core.$ZodType;
  readonly in?: z.core.$ZodType;
};

/** Where a schema would let through what it does not name. */
function loosePlaces(schema: z.core.$ZodType, path: string): string[] {
  const definition = schema._zod.def as unknown as Inner;
  const inner = [
    ...Object.entries(definition.shape ?? {}).map(([name, one]) => [one, `${path}.${name}`] as const),
    ...[
      definition.innerType,
      definition.element,
      definition.valueType,
      definition.in,
      ...(definition.options ?? []),
    ].flatMap((one) => (one ? [[one, path] as const] : [])),
  ];
  const strict = definition.type !== 'object' || definition.catchall?._zod.def.type === 'never';
  const open = definition.type === 'any' || definition.type === 'unknown';
  return [...(strict && !open ? [] : [path]), ...inner.flatMap(([one, at]) => loosePlaces(one, at))];
}

it('BL2: fence 3, the output: every procedure has an output schema that lets through nothing it does not name', () => {
  const loose = Object.entries(appRouter._def.procedures).flatMap(([path, procedure]) => {
    // tRPC keeps the parser on every procedure; its types show it only for procedures made by hand.
    const { output } = (procedure as unknown as { readonly _def: Definition })._def;
    return output instanceof z.core.$ZodType ? loosePlaces(output, path) : [`${path} has none`];
  });
  expect(loose).toEqual([]);
});

it('BL3: fence 4, the socket: what an event carries besides ids, a phase and a version does not go out', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'preparing');
  const socket = await listenLive(owner);
  const frames: string[] = [];
  socket.io.engine.on('packet', (packet: unknown) => frames.push(JSON.stringify(packet)));
  const heard = new Promise((resolve) => socket.once('changed', resolve));
  const event = {
    evaluation: id,
    audience: 'all',
    phase: 'preparing',
    version: 99,
    table: null,
    score: 'quince',
  } as const;
  server.runtime.hub.announce({ seat: null, event });
  await heard;
  socket.close();
  expect(frames.join('\n')).toContain('99');
  expect(frames.join('\n')).not.toContain('quince');
});

it('BL9: fence 5, the nonce: no command makes a hash of cards but through a promise that is checked or a commitment whose nonce is drawn on the spot', () => {
  const server = inRoom(new URL('../../server/', import.meta.url));
  const calling = (call: string) => server.filter(({ text }) => text.includes(`${call}(`)).map(({ at }) => at);
  // The check of a data file makes hashes again and publishes none; the demo's seats are devices of their own.
  expect(calling('cardsHash').toSorted()).toEqual([
    'demo/openCopy.lockFor',
    'demo/scriptedSeat.lock',
    'reveal/verifyData.commitmentFaults',
    'write/commitCards.cardsHash',
    'write/commitCards.isPromiseOf',
  ]);
  expect(calling('insertCommitment')).toEqual(['write/commitCards.keep']);
});

it('BL8: fence 6, the query: whatever reads notes, marks, measurements or raised hands asks whether they may be told', () => {
  const all = inRoom(queries);
  const reading = all.filter(({ text }) =>
    /\.from\((discussionNote|raisedHand|photoPointer|photoMeasurement)\)/.test(text),
  );
  expect(reading.map(({ at }) => at).toSorted()).toEqual([
    'decisions.listDiscussionNotes',
    'photoMarks.measurementRows',
    'photoMarks.pointerRows',
    'seats.findHand',
    'seats.listRaisedHands',
  ]);
  expect(reading.filter(({ text }) => !/\bisHeld\(/.test(text)).map(({ at }) => at)).toEqual([]);
  const marks = all.filter(({ at, text }) => at !== 'photoMarks.photoMarkRows' && text.includes('photoMarkRows('));
  expect(marks.length).toBeGreaterThan(1);
  expect(marks.filter(({ text }) => !text.includes('isReleased(')).map(({ at }) => at)).toEqual([]);
});
