'use client';

import { useQuery } from '@tanstack/react-query';
import { useSearchParams } from 'next/navigation';
import { useState } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import type { SlotView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import { closeCallThresholds } from '#lib/reconcile/merit/slotResults';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { Drawer } from '../_parts/Drawer';
import { FieldChoice } from '../_parts/FieldChoice';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { BatchForm } from './BatchForm';
import styles from './look.module.css';

type OpeningFormProps = { readonly board: BoardView; readonly looks: readonly LookView[]; readonly faces: Faces };

const media = [
  { key: 'table', words: 'live, both set up at once' },
  { key: 'photographs', words: 'from photographs' },
] as const;

/** Chooses a place and how to look; the pairs worth most stand ready, and may be changed. The first open close call comes first. */
export function LookOpeningForm({ board, looks, faces }: OpeningFormProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const asked = useSearchParams().get('slot');
  const [chosen, setSlot] = useState<string | null>(null);
  const [medium, setMedium] = useState<'table' | 'photographs'>(evaluation.round?.medium ?? 'table');
  const usual =
    board.slots.find((one) => one.slotId === asked) ??
    board.slots.find((one) => one.close && one.looks.verdict === 'goOn') ??
    board.slots[0];
  const slot = board.slots.find((one) => one.slotId === chosen) ?? usual;
  const slotId = slot?.slotId ?? '';
  const spent = slot !== undefined && slot.looks.used >= slot.looks.agreed;
  const proposal = useQuery({
    ...trpc.look.propose.queryOptions({ id: evaluation.id, slotId, medium }),
    enabled: slotId !== '' && !spent,
  });
  if (!slot) return null;
  return (
    <section className="stack gap-14" aria-labelledby="open-one">
      <h2 id="open-one">Open second looks</h2>
      <p>
        Two puppies side by side, pair after pair; every seat that sees them answers privately. Best for a close call:
        elsewhere it changes little.
      </p>
      <div className={`grid gap-12 ${styles.choose}`}>
        <FieldChoice
          label="For which place"
          value={slotId}
          options={evaluation.slots.map((one) => ({ key: one.id, words: placeWords(board, one, faces.place(one.id)) }))}
          onChange={setSlot}
        />
        <FieldChoice label="How" value={medium} options={media} onChange={setMedium} />
      </div>
      <p>{slot.looks.sentence}</p>
      {slot.looks.unlinked === null ? null : <p>{slot.looks.unlinked}</p>}
      <p className="small figures">{`${slot.looks.used} of ${slot.looks.agreed} agreed batches used for this place.`}</p>
      {spent ? <p>The agreed batches are used up, so no further look can be opened for this place.</p> : null}
      {!spent && proposal.isPending ? (
        <Loading what="the pairs worth looking at; they are worked out once, which takes a moment" />
      ) : null}
      <Refusal error={proposal.error} />
      {!spent && proposal.data ? (
        <BatchForm
          key={`${slotId} ${medium} ${slot.looks.used}`}
          slot={slot}
          medium={medium}
          proposal={proposal.data}
          looks={looks}
          faces={faces}
        />
      ) : null}
      <LookSettings board={board} />
    </section>
  );
}

function placeWords(board: BoardView, { id, taker }: SlotView, place: number): string {
  const result = board.slots.find((slot) => slot.slotId === id);
  const standing =
    result?.looks.verdict === 'equalWithinHalf' ? ', hardly apart' : result?.close === true ? ', a close call' : '';
  return `${place}. ${taker}${standing}`;
}

/** How answers of a second look enter the numbers, for those who want to know. */
function LookSettings({ board }: { readonly board: BoardView }) {
  const [open, setOpen] = useState(false);
  const { noise, tieHalfWidth } = board.lookSettings;
  return (
    <div>
      <Button onClick={() => setOpen(true)}>How a look is read</Button>
      {open ? (
        <Drawer title="How a second look is read" onClose={() => setOpen(false)}>
          <p>
            An answer tells once more how far two puppies lie apart for this place. It is folded into the scores: what a
            seat liked or disliked about a puppy while scoring, it is taken to like or dislike in the look as well, so
            that ten answers of one eye do not count as ten eyes.
          </p>
          <p>
            A single answer scatters with a standard deviation of <b className="figures">{noise.toFixed(2)}</b> points
            of this sheet’s scale. Below <b className="figures">{tieHalfWidth.toFixed(2)}</b> points a seat is taken to
            be unable to tell two puppies apart; “I cannot separate them” says just that, and counts.
          </p>
          <p>
            A place is settled when one puppy is the best of those eligible in{' '}
            {Math.round(100 * closeCallThresholds.closeBelow)} of 100 readings. Looks also end when its candidates lie
            within half a step of each other in 80 of 100 readings: what is left is a preference, and is recorded as
            one. When the agreed batches are used up before either, the place is not settled, and the board says to whom
            it leans.
          </p>
          <p className="small figures">{`${board.looks.answers} answers are part of the numbers now.`}</p>
        </Drawer>
      ) : null}
    </div>
  );
}
