'use client';

import { useQuery } from '@tanstack/react-query';
import type { BoardView } from '#lib/contract/boardView';
import type { OpenedCommitment } from '#lib/contract/commitment';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { readPromises } from '../_data/keptPromises';
import { useTRPC } from '../_data/trpc';
import { readPublished } from '../_data/witness';
import { Refusal } from '../_parts/Refusal';
import { checkCards, strayScores, type CheckedCard } from './checkCards';
import type { Faces } from './facesOf';
import styles from './FactsSection.module.css';
import { promiseWords } from './promiseWords';

type Props = { readonly evaluation: EvaluationView; readonly board: BoardView; readonly faces: Faces };

/** What was promised: this device makes every commitment again and says what it found. */
export function PromisedPart({ evaluation, board, faces }: Props) {
  const trpc = useTRPC();
  const opened = useQuery(trpc.board.commitments.queryOptions({ id: evaluation.id }));
  const checked = useQuery({
    queryKey: ['promises', evaluation.id, board.roundId, opened.dataUpdatedAt],
    queryFn: () => check(opened.data ?? [], { evaluation, board }),
    enabled: opened.data !== undefined,
  });
  const error = opened.error ?? checked.error;
  return (
    <>
      <h3>What was promised</h3>
      {checked.data === undefined ? (
        error === null ? <p>This device is making the commitments again …</p> : <Refusal error={error} />
      ) : (
        <ul className={styles.lines} aria-label="What was promised">
          {promiseWords(checked.data, (seat) => faces.seatLabel(seat)).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </>
  );
}

async function check(opened: readonly OpenedCommitment[], { evaluation, board }: Omit<Props, 'faces'>): Promise<CheckedCard[]> {
  const ownSeatId = evaluation.viewer.seatId;
  // Those of the board too: a round of which nothing was opened is to be missed.
  const newest = evaluation.round?.state === 'revealed' ? [evaluation.round.id] : [];
  const rounds = [...new Set([...opened.map((one) => one.roundId), board.roundId, ...newest])];
  const each = await Promise.all(
    rounds.map(async (roundId) => {
      // Where the browser keeps nothing, the opened cards are held to what they were published with alone.
      const published = await readPublished(roundId).catch(() => null);
      const promises = ownSeatId === null ? [] : await readPromises({ roundId, seatId: ownSeatId }).catch(() => []);
      return checkCards(opened.filter((one) => one.roundId === roundId), { published, promises, ownSeatId, roundId, anonymous: board.anonymous });
    }),
  );
  const checked = each.flat();
  const stray = evaluation.round?.id === board.roundId && rounds.length === 1 ? strayScores(board, opened, evaluation.round.showings) : [];
  const unopened = stray.filter((seat) => !checked.some((one) => one.seat === seat));
  return [
    ...checked.map((one): CheckedCard => (one.fault === null && stray.includes(one.seat) ? { ...one, fault: 'board' } : one)),
    ...unopened.map((seat): CheckedCard => ({ seat, roundId: board.roundId, locked: true, wordsRemoved: false, fault: 'missing' })),
  ];
}
