'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState, type FormEvent } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import type { EvaluationView, SlotView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { Refusal } from '../_parts/Refusal';
import styles from './LookOpeningForm.module.css';
import { pairNotice } from './pairNotice';

type FormProps = { readonly board: BoardView; readonly looks: readonly LookView[]; readonly evaluation: EvaluationView; readonly faces: Faces };

/** Chooses a place and two puppies that fit it; the first close call and its two most likely puppies stand ready. */
export function LookOpeningForm({ board, looks, evaluation, faces }: FormProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [slotId, setSlotId] = useState((board.slots.find((slot) => slot.close) ?? board.slots[0])?.slotId ?? '');
  const [picked, setPicked] = useState<{ readonly first?: string; readonly second?: string }>({});
  const open = useMutation(trpc.look.open.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const slot = board.slots.find((one) => one.slotId === slotId);
  const fitting = slot?.chances.map(({ puppy }) => puppy) ?? [];
  const firstPuppyId = picked.first ?? fitting[0] ?? '';
  const secondPuppyId = picked.second ?? fitting.find((id) => id !== firstPuppyId) ?? '';
  const puppies = fitting.map((id) => ({ key: id, words: faces.puppyName(id) }));
  const ready = slotId !== '' && firstPuppyId !== '' && secondPuppyId !== '' && firstPuppyId !== secondPuppyId;
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) open.mutate({ id: evaluation.id, slotId, medium: 'table', pairs: [{ firstPuppyId, secondPuppyId }] });
  };
  return (
    <form onSubmit={send} className={styles.form} aria-labelledby="open-one">
      <h2 id="open-one">Open a second look</h2>
      <p>Two puppies set up at once; every seat that sees the table answers privately. Best for a close call: elsewhere it changes little.</p>
      <FieldChoice
        label="For which place"
        value={slotId}
        options={evaluation.slots.map((one) => ({ key: one.id, words: placeWords(board, one, faces.place(one.id)) }))}
        onChange={(id) => {
          setSlotId(id);
          setPicked({});
        }}
      />
      {fitting.length < 2 ? <p>Fewer than two puppies fit this place.</p> : (
        <div className={styles.pair}>
          <FieldChoice label="One puppy" value={firstPuppyId} options={puppies} onChange={(first) => setPicked({ ...picked, first })} />
          <FieldChoice label="The other" value={secondPuppyId} options={puppies} onChange={(second) => setPicked({ ...picked, second })} />
        </div>
      )}
      {ready ? <p className="small">{pairNotice(looks, [firstPuppyId, secondPuppyId], faces)}</p> : null}
      <div>
        <Button type="submit" tone="main" busy={open.isPending} disabled={!ready}>
          {ready ? `Open a second look at ${faces.puppyName(firstPuppyId)} and ${faces.puppyName(secondPuppyId)}` : 'Choose two different puppies'}
        </Button>
      </div>
      <Refusal error={open.error} />
    </form>
  );
}

function placeWords(board: BoardView, { id, taker }: SlotView, place: number): string {
  const close = board.slots.find((slot) => slot.slotId === id)?.close === true;
  return `${place}. ${taker}${close ? ', a close call' : ''}`;
}
