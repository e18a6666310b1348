'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Button } from './Button';
import { PickOrder } from './PickOrder';
import styles from './PickOrder.module.css';
import { Refusal } from './Refusal';
import { type SlotSentences, slotSentences } from './slotSentences';
import { useConfirmedWords } from './useConfirmedWords';

/** Before scoring: the pick order for everybody to read, and for a party the press that agrees to it as it is worded now. */
export function PickOrderAgreed({ evaluation }: { readonly evaluation: EvaluationView }) {
  const { slots, seats, parties, viewer } = evaluation;
  const ownerSeatId = seats.find((seat) => seat.owner)?.id ?? null;
  const places = slots.map((_, at) => slotSentences({ slots, ownerSeatId }, at));
  const own = parties.find((party) => party.seat === viewer.seatId);
  const remembered = useConfirmedWords(evaluation.id);
  const changed = own === undefined || own.confirmed ? [] : changedPlaces(places, remembered.words);
  return (
    <section aria-label="The pick order" className={styles.part}>
      <h2>The pick order</h2>
      <p className="small">Who takes a puppy, in this order and on these terms. It is agreed on before anyone scores and stands from then on.</p>
      {own && remembered.words !== null && !own.confirmed ? (
        <p className={styles.waits}>It was changed after you confirmed it, so you are asked again.</p>
      ) : null}
      <PickOrder places={places} changed={changed} />
      {own ? <Confirmation evaluation={evaluation} confirmed={own.confirmed} onConfirmed={() => remembered.remember(places.map(wordsOf))} /> : null}
    </section>
  );
}

const wordsOf = ({ lead, terms }: SlotSentences) => [lead, ...terms].join(' ');

function changedPlaces(places: readonly SlotSentences[], before: readonly string[] | null): number[] {
  return before === null ? [] : places.flatMap((place, at) => (wordsOf(place) === before[at] ? [] : [at]));
}

type ConfirmationProps = { readonly evaluation: EvaluationView; readonly confirmed: boolean; readonly onConfirmed: () => void };

function Confirmation({ evaluation, confirmed, onConfirmed }: ConfirmationProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const confirm = useMutation(
    trpc.setup.confirmPickOrder.mutationOptions({
      onSuccess: () => {
        onConfirmed();
        return queries.invalidateQueries();
      },
    }),
  );
  if (confirmed) {
    return (
      <p role="status" className={styles.agreed}>
        You have confirmed this pick order. Should a word of it change before scoring, you are asked again.
      </p>
    );
  }
  return (
    <>
      <p>Your seat may pick, so the owner needs your word on it: read it through, and ask about what is missing before you confirm.</p>
      <div>
        <Button tone="main" busy={confirm.isPending} onClick={() => confirm.mutate({ id: evaluation.id })}>
          I agree to this pick order
        </Button>
      </div>
      <Refusal error={confirm.error} />
    </>
  );
}
