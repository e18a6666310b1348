'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from './Button';
import { Refusal } from './Refusal';
import { type SlotSentences, slotSentences } from './slotWords';

/** Before scoring: the pick order for everybody to read, and for a party the press that agrees to it as it is worded now. */
export function PickOrderAgreed() {
  const evaluation = useEvaluation();
  const { slots, seats, parties, viewer } = evaluation;
  const ownerSeatId = seats.find((seat) => seat.owner)?.id ?? null;
  const places = slots.map((_, at) => slotSentences({ slots, ownerSeatId }, at));
  const own = parties.find((party) => party.seat === viewer.seatId);
  const remembered = useConfirmedWords(evaluation.id);
  const changed = own === undefined || own.confirmed ? [] : changedPlaces(places, remembered.words);
  return (
    <section aria-label="The pick order" className="stack text gap-12">
      <h2>The pick order</h2>
      <p className="small">
        Who takes a puppy, in this order and on these terms. It is agreed on before anyone scores and stands from then
        on.
      </p>
      {own && remembered.words !== null && !own.confirmed ? (
        <p className="warning">It was changed after you confirmed it, so you are asked again.</p>
      ) : null}
      <PickOrder places={places} changed={changed} />
      {own ? (
        <Confirmation confirmed={own.confirmed} onConfirmed={() => remembered.remember(places.map(wordsOf))} />
      ) : null}
    </section>
  );
}

const wordsOf = ({ lead, terms }: SlotSentences) => [lead, ...terms].join(' ');

function changedPlaces(places: readonly SlotSentences[], before: readonly string[] | null): number[] {
  return before === null ? [] : places.flatMap((place, at) => (wordsOf(place) === before[at] ? [] : [at]));
}

type ConfirmationProps = { readonly confirmed: boolean; readonly onConfirmed: () => void };

function Confirmation({ confirmed, onConfirmed }: ConfirmationProps) {
  const evaluation = useEvaluation();
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
      <p role="status" className="told slim">
        You have confirmed this pick order. Should a word of it change before scoring, you are asked again.
      </p>
    );
  }
  return (
    <>
      <p>
        Your seat may pick, so the owner needs your word on it: read it through, and ask about what is missing before
        you confirm.
      </p>
      <div>
        <Button tone="main" busy={confirm.isPending} onClick={() => confirm.mutate({ id: evaluation.id })}>
          I agree to this pick order
        </Button>
      </div>
      <Refusal error={confirm.error} />
    </>
  );
}

type PickOrderProps = {
  readonly places: readonly SlotSentences[] /** Places whose words are not those the reader confirmed, from 0. */;
  readonly changed?: readonly number[];
};

/** The whole pick order in plain words, place after place. */
function PickOrder({ places, changed = [] }: PickOrderProps) {
  if (places.length === 0) return <p>No place is set up: nobody takes a puppy by this evaluation.</p>;
  return (
    <ol className="list stack gap-10">
      {places.map(({ lead, terms }, at) => (
        <li key={at} className={changed.includes(at) ? 'card gap-4 edge-note' : 'card gap-4'}>
          <p className="strong">{lead}</p>
          <ul className="points">
            {terms.map((term) => (
              <li key={term}>{term}</li>
            ))}
          </ul>
          {changed.includes(at) ? <p className="strong tone-note">Changed since you confirmed.</p> : null}
        </li>
      ))}
    </ol>
  );
}

type Remembered = { readonly words: readonly string[] | null; readonly remember: (words: readonly string[]) => void };

/** The words this browser tab confirmed last, so that a change can be pointed at; gone with the tab. */
function useConfirmedWords(evaluationId: string): Remembered {
  const key = `evenstack.pick-order.${evaluationId}`;
  const [words, setWords] = useState(() => read(key));
  const remember = (next: readonly string[]) => {
    setWords(next);
    try {
      sessionStorage.setItem(key, JSON.stringify(next));
    } catch {
      // A browser that keeps nothing only loses the marks of what changed.
    }
  };
  return { words, remember };
}

function read(key: string): readonly string[] | null {
  try {
    const stored: unknown = JSON.parse(sessionStorage.getItem(key) ?? 'null');
    return Array.isArray(stored) && stored.every((one) => typeof one === 'string') ? stored : null;
  } catch {
    return null;
  }
}
