'use client';

import { useQuery } from '@tanstack/react-query';
import type { BoardView } from '#lib/contract/boardView';
import type { OpenedCommitment, PublishedCommitment } from '#lib/contract/commitment';
import type { EvaluationView, Showing } from '#lib/contract/evaluationView';
import { cardsHash, type KeptPromise, readPromises } from '../_data/keptPromises';
import { type RouterOutputs, useTRPC } from '../_data/trpc';
import { readPublished } from '../_data/witness';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { Refusal } from '../_parts/Refusal';
import { counted, listWords } from '../_parts/textWords';
import styles from './board.module.css';

type Props = { readonly board: BoardView; readonly faces: Faces };

/** What was promised: this device makes every commitment again and says what it found. */
export function PromisedPart({ board, faces }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const opened = useQuery(trpc.board.commitments.queryOptions({ id: evaluation.id }));
  const record = useQuery(trpc.record.list.queryOptions({ id: evaluation.id }));
  const checked = useQuery({
    queryKey: ['promises', evaluation.id, board.roundId, opened.dataUpdatedAt, record.dataUpdatedAt],
    queryFn: () => check(opened.data ?? [], { evaluation, board, record: record.data ?? [] }),
    enabled: opened.data !== undefined && record.data !== undefined,
  });
  const error = opened.error ?? record.error ?? checked.error;
  return (
    <>
      <h3>What was promised</h3>
      {checked.data === undefined ? (
        error === null ? (
          <p>This device is making the commitments again …</p>
        ) : (
          <Refusal error={error} />
        )
      ) : (
        <ul className={`stack points gap-4 ${styles.lines}`} aria-label="What was promised">
          {promiseWords(checked.data, (seat) => faces.seatLabel(seat)).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </>
  );
}

type Line = Pick<RouterOutputs['record']['list'][number], 'kind' | 'detail'>;

async function check(
  opened: readonly OpenedCommitment[],
  {
    evaluation,
    board,
    record,
  }: { readonly evaluation: EvaluationView; readonly board: BoardView; readonly record: readonly Line[] },
): Promise<CheckedCard[]> {
  const ownSeatId = evaluation.viewer.seatId;
  // Those of the board too: a round of which nothing was opened is to be missed.
  const newest = evaluation.round?.state === 'revealed' ? [evaluation.round.id] : [];
  const rounds = [...new Set([...opened.map((one) => one.roundId), board.roundId, ...newest])];
  const undone = undoneCommitments(record);
  const each = await Promise.all(
    rounds.map(async (roundId) => {
      // Where the browser keeps nothing, the opened cards are held to what they were published with alone.
      const published = await readPublished(roundId).catch(() => null);
      const promises = ownSeatId === null ? [] : await readPromises({ roundId, seatId: ownSeatId }).catch(() => []);
      const held = inForce({ published, promises }, undone);
      return checkCards(
        opened.filter((one) => one.roundId === roundId),
        { ...held, ownSeatId, roundId, anonymous: board.anonymous },
      );
    }),
  );
  const checked = each.flat();
  const stray =
    evaluation.round?.id === board.roundId && rounds.length === 1
      ? strayScores(board, opened, evaluation.round.showings)
      : [];
  const unopened = stray.filter((seat) => !checked.some((one) => one.seat === seat));
  return [
    ...checked.map(
      (one): CheckedCard => (one.fault === null && stray.includes(one.seat) ? { ...one, fault: 'board' } : one),
    ),
    ...unopened.map(
      (seat): CheckedCard => ({ seat, roundId: board.roundId, locked: true, wordsRemoved: false, fault: 'missing' }),
    ),
  ];
}

const faultWords: Readonly<Record<CardFault, string>> = {
  cards: 'is not what was committed before the reveal',
  published: 'has another commitment than this device saw before the reveal',
  promise: 'is not the one this device locked',
  server: 'was locked by its own device, yet its commitment was made by the server',
  missing: 'was committed before the reveal and has not been opened',
  board: 'is not the one the board shows',
};

/** What this device found when it made every commitment again: a sentence each, the verdict first. */
export function promiseWords(checked: readonly CheckedCard[], labelOf: (seat: string) => string): string[] {
  if (checked.length === 0) return ['Nothing was committed here before the reveal, so nothing can be checked.'];
  const faults = checked.flatMap(({ seat, fault }) =>
    fault === null ? [] : [`The card of ${labelOf(seat)} ${faultWords[fault]}.`],
  );
  const kept = checked.filter((one) => one.fault === null && !one.wordsRemoved);
  const removed = checked.filter((one) => one.wordsRemoved).length;
  const unlocked = [...new Set(checked.filter((one) => !one.locked).map((one) => labelOf(one.seat)))];
  return [
    ...faults,
    ...(kept.length === 0 ? [] : [keptWords(kept.length, faults.length + removed)]),
    ...(unlocked.length === 0
      ? []
      : [`Bound by the server when the round closed, because not locked: ${listWords(unlocked)}.`]),
    ...(removed === 0
      ? []
      : [`${counted(removed, 'card')} can no longer be checked: the person’s words were removed.`]),
  ];
}

function keptWords(kept: number, rest: number): string {
  if (rest > 0)
    return `The other ${counted(kept, 'card')} ${kept === 1 ? 'is' : 'are'} what was committed before the reveal.`;
  return kept === 1
    ? 'The one card opened here is what was committed before the reveal.'
    : `All ${kept} cards are what was committed before the reveal.`;
}

/** What this device holds the server to. */
type Held = {
  readonly published: readonly PublishedCommitment[] | null;
  /** What this device promised with its own locks; empty when it locked nothing. */
  readonly promises: readonly KeptPromise[];
  readonly ownSeatId: string | null;
  readonly roundId: string;
  /** An anonymous panel opens to each seat its own card only: others are not missing. */
  readonly anonymous: boolean;
};

/**
 * Hashes that were published and undone by a reopening, as the record tells: a device that was away when the round closed again
 * still holds them. Whether the record is the one this device saw is watched on every page.
 */
export function undoneCommitments(record: readonly Line[]): ReadonlySet<string> {
  const undone = new Set<string>();
  let published: string[] = [];
  for (const { kind, detail } of record) {
    if (kind === 'committed' || kind === 'committed-unlocked') published.push(detail);
    if (kind === 'round-reopened') for (const hash of published) undone.add(hash);
    if (kind === 'round-reopened' || kind === 'round-revealed') published = [];
  }
  return undone;
}

/** What this device kept and no reopening has undone. What was published is undone as a whole or not at all. */
export function inForce(
  { published, promises }: Pick<Held, 'published' | 'promises'>,
  undone: ReadonlySet<string>,
): Pick<Held, 'published' | 'promises'> {
  const before = published !== null && published.length > 0 && published.every(({ hash }) => undone.has(hash));
  return {
    published: before ? null : published,
    promises: promises.filter(({ commitment }) => !undone.has(commitment)),
  };
}

type CardFault = 'cards' | 'published' | 'promise' | 'server' | 'missing' | 'board';
type CheckedCard = {
  readonly seat: string;
  readonly roundId: string;
  readonly locked: boolean;
  readonly wordsRemoved: boolean;
  readonly fault: CardFault | null;
};

/**
 * Makes every commitment of one round again from what the reveal opened. cards: they are not what the hash was made of.
 * published: the commitment is not the one this device saw before the reveal. promise: the seat's own card is not the one this
 * device locked. server: the seat locked and was not issued again, yet the server says that it made the commitment. missing: a
 * card that was published, or locked by this device, was not opened.
 */
export function checkCards(opened: readonly OpenedCommitment[], held: Held): CheckedCard[] {
  const checked = opened.map((one): CheckedCard => {
    const { seat, roundId, locked, wordsRemoved } = one;
    return { seat, roundId, locked, wordsRemoved, fault: faultOf(one, held) };
  });
  return [...checked, ...missingCards(opened, held)];
}

function faultOf(one: OpenedCommitment, { published, promises, ownSeatId }: Held): CardFault | null {
  const { seat, roundId, hash, by, locked, nonce } = one;
  if (!one.wordsRemoved && cardsHash(nonce, { roundId, seatId: seat, answers: one.cards }) !== hash) return 'cards';
  const before = published?.find((other) => other.seat === seat);
  if (before ? before.hash !== hash || before.by !== by || before.locked !== locked : published !== null)
    return 'published';
  if (by === 'server' && locked && !one.reissued) return 'server';
  const own = seat === ownSeatId && promises.length > 0 && by === 'device';
  return own && !promises.some((kept) => kept.nonce === nonce && kept.commitment === hash) ? 'promise' : null;
}

function missingCards(
  opened: readonly OpenedCommitment[],
  { published, promises, ownSeatId, roundId, anonymous }: Held,
): CheckedCard[] {
  const mayKnow = (published ?? []).filter(({ seat }) => !anonymous || seat === ownSeatId);
  const own =
    ownSeatId !== null && promises.length > 0 && !mayKnow.some(({ seat }) => seat === ownSeatId)
      ? [{ seat: ownSeatId, locked: true }]
      : [];
  return [...mayKnow, ...own]
    .filter(({ seat }) => !opened.some((one) => one.seat === seat))
    .map(({ seat, locked }) => ({ seat, roundId, locked, wordsRemoved: false, fault: 'missing' }));
}

/** Seats with a score on the board that none of their opened cards holds; a seat without an opened card has none that does, once anything was committed. */
export function strayScores(
  board: Pick<BoardView, 'criteria'>,
  opened: readonly OpenedCommitment[],
  showings: readonly Showing[],
): string[] {
  const puppyOf = new Map(showings.map((one) => [one.id, one.puppyId]));
  const seats = new Set(opened.map((one) => one.seat));
  const held = new Set(
    opened.flatMap(({ seat, cards }) =>
      cards.flatMap(({ subject, body }) =>
        body.kind === 'score'
          ? [`${seat} ${puppyOf.get(subject)} ${body.criterion} ${body.value} ${body.cannotJudge}`]
          : [],
      ),
    ),
  );
  const stray = board.criteria.flatMap(({ criterion, dots }) =>
    dots.flatMap(({ puppy, seat, value, cannotJudge }) =>
      seat !== null && seats.size > 0 && !held.has(`${seat} ${puppy} ${criterion} ${value} ${cannotJudge}`)
        ? [seat]
        : [],
    ),
  );
  return [...new Set(stray)];
}
