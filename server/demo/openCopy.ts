import { open } from '#db/open';
import { findDevice } from '#db/queries/devices';
import { listOwnAnswers } from '#db/queries/entries';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { DomainError } from '#lib/errors';
import { lockSeat } from '../commands/cards';
import { closeRound } from '../commands/rounds';
import { hashToken } from '../random';
import { revealRound } from '../reveal/revealRound';
import type { Demo, DemoCopy, Runtime } from '../runtime';
import { cardsHash } from '../write/commitCards';
import { type Cast, createCast, type Pace } from './cast';
import { inventCards } from './inventCards';
import { copyFile } from './makeCopy';
import { handOf } from './prepareDay';
import type { Scenario } from './scenario';
import { connectScriptedSeat } from './scriptedSeat';
import type { Visitor } from './visitorFile';

export type CopySettings = {
  readonly scenario: Scenario;
  readonly cookieName: string;
  /** The demo's own address, known once it listens. */
  readonly url: () => string;
  readonly pace: Pace;
  readonly life: number;
  readonly around: Omit<Runtime, 'db' | 'demo' | 'hub'>;
  readonly failed: (error: unknown) => void;
};

export type OpenCopy = { readonly runtime: Runtime; readonly cast: Cast; close(): Promise<void> };

type Opening = CopySettings & {
  readonly folder: string;
  readonly visitor: Visitor;
  readonly hub: Runtime['hub'];
  readonly enter: Demo['enter'];
};

/** Opens one visitor's copy: its data, its own doorbells and its cast. */
export function openCopy(opening: Opening): OpenCopy {
  const { folder, visitor, around, hub, enter } = opening;
  const db = open(copyFile(folder));
  const cast = castOf(opening, db);
  const copy: DemoCopy = {
    view: () => {
      const { round } = getEvaluationFacts(db, visitor.open.id);
      const { role, sealed, open: scored, enteredAt } = visitor;
      return {
        role,
        sealedId: sealed.id,
        openId: scored.id,
        revealed: round?.state === 'revealed',
        removedAt: enteredAt + opening.life,
      };
    },
    sessionIn: (evaluationId) => {
      const place = [visitor.open, visitor.sealed].find((one) => one.id === evaluationId);
      if (!place) throw new DomainError('not-found');
      return place.secret;
    },
    playToReveal: () => playToReveal(runtime, visitor, cast),
  };
  const runtime: Runtime = { ...around, db, hub, demo: { enter, copy } };
  return {
    runtime,
    cast,
    close: async () => {
      await cast.close();
      for (const secret of [visitor.open.secret, visitor.sealed.secret]) {
        const device = findDevice(db, hashToken(secret));
        if (device) hub.dismiss(device.id);
      }
      db.$client.close();
    },
  };
}

function castOf({ visitor, scenario, cookieName, url, around, pace, failed }: Opening, db: Runtime['db']): Cast {
  const connect = () => {
    const cards = inventCards({ scenario, day: scenario.open, sheet: getEvaluationFacts(db, visitor.open.id).sheet });
    return visitor.cast.map(({ role, secret }) =>
      connectScriptedSeat({
        ...around,
        role,
        url: url(),
        cookie: `${cookieName}=${secret}`,
        evaluationId: visitor.open.id,
        cards: cards.get(role) ?? new Map(),
        choices: scenario.open.choices.filter((choice) => choice.role === role),
      }),
    );
  };
  return createCast({ connect, pace, failed });
}

/**
 * The one click: nothing here looks at a score. Every card is locked by its own seat, and the owner reveals, the scripted
 * one through her procedures or the visitor, who asked for it, through the same commands.
 */
async function playToReveal(runtime: Runtime, { open: { id, seat } }: Visitor, cast: Cast): Promise<void> {
  const { round, seats } = getEvaluationFacts(runtime.db, id);
  if (!round || round.state === 'revealed') throw new DomainError('wrong-phase');
  if (round.state === 'open') {
    const own = seats.find((one) => one.id === seat);
    if (own?.lockedAt === null)
      lockSeat(handOf(runtime, own), lockFor(runtime, { evaluationId: id, roundId: round.id, seatId: seat }));
    await cast.finish();
  }
  if (await cast.reveal()) return;
  const after = getEvaluationFacts(runtime.db, id).round?.state;
  if (after === 'open') closeRound(runtime, id);
  if (after !== 'revealed') revealRound(runtime, id);
}

type Seat = { readonly evaluationId: string; readonly roundId: string; readonly seatId: string };

/** The lock of a seat that the demo plays without a device of its own: promised over what is held. */
export function lockFor(
  { db, random }: Runtime,
  { evaluationId, roundId, seatId }: Seat,
): Parameters<typeof lockSeat>[1] {
  const nonce = random.id();
  const answers = listOwnAnswers(db, { seatId, roundId, deviceId: null });
  return { evaluationId, promised: { nonce, commitment: cardsHash(nonce, { roundId, seatId, answers }) } };
}
