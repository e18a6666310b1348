'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState, type FormEvent } from 'react';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/counted';
import { Refusal } from '../_parts/Refusal';
import type { RouterOutputs } from '../_parts/routerOutputs';
import { capital } from '../board/capital';
import type { SlotResult } from '../board/PlaceCard';
import { undefinedWords } from '../board/undefinedWords';
import { lookGainWords } from './lookGainWords';
import styles from './LookOpeningForm.module.css';
import type { OpeningFormProps } from './LookOpeningForm';
import { type Pair, pairNotice } from './pairNotice';
import { PairsForm } from './PairsForm';

const MOST = 3;

type BatchFormProps = OpeningFormProps & { readonly slot: SlotResult; readonly medium: 'table' | 'photographs'; readonly proposal: RouterOutputs['look']['propose'] };

/** The proposed pairs with what they should bring, to take as they are or to change, and the press that opens them. */
export function BatchForm({ slot, medium, proposal, looks, evaluation, faces }: BatchFormProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [changed, setChanged] = useState<readonly Pair[] | null>(null);
  const open = useMutation(trpc.look.open.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const fitting = slot.chances.map(({ puppy }) => puppy);
  const pairs = changed ?? ('undefined' in proposal ? likeliest(fitting) : proposal.pairs.map(({ firstPuppyId, secondPuppyId }) => ({ firstPuppyId, secondPuppyId })));
  const ready = pairs.length > 0 && pairs.every(({ firstPuppyId, secondPuppyId }) => firstPuppyId !== secondPuppyId) && distinct(pairs);
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) open.mutate({ id: evaluation.id, slotId: slot.slotId, medium, pairs: [...pairs] });
  };
  if (fitting.length < 2) return <p>Fewer than two puppies fit this place.</p>;
  return (
    <form onSubmit={send} className={styles.form} aria-label="Pairs to look at">
      {'undefined' in proposal ? (
        <p>No pairs are proposed here: {capital(undefinedWords(proposal.undefined))}. You may choose some yourself.</p>
      ) : (
        <p className={styles.gain}>
          {lookGainWords({ now: proposal.now, gain: proposal.gain, pairs: proposal.pairs.length })}
          {changed === null ? '' : ' This is said of the proposed pairs, not of those you have put in their place.'}
        </p>
      )}
      <PairsForm
        pairs={pairs}
        puppies={fitting.map((id) => ({ key: id, words: faces.puppyName(id) }))}
        most={MOST}
        notice={(pair, at) => pairNotice(looks, { pair, at, medium }, faces)}
        onChange={setChanged}
      />
      <div className={styles.actions}>
        <Button type="submit" tone="main" busy={open.isPending} disabled={!ready}>
          {ready ? `Open this batch of ${counted(pairs.length, 'pair')}` : 'Every pair needs two puppies, and each pair once'}
        </Button>
        {changed === null || 'undefined' in proposal ? null : <Button onClick={() => setChanged(null)}>Back to the proposed pairs</Button>}
      </div>
      <Refusal error={open.error} />
    </form>
  );
}

function likeliest([first, second]: readonly string[]): Pair[] {
  return first === undefined || second === undefined ? [] : [{ firstPuppyId: first, secondPuppyId: second }];
}

function distinct(pairs: readonly Pair[]): boolean {
  return new Set(pairs.map(({ firstPuppyId, secondPuppyId }) => [firstPuppyId, secondPuppyId].sort().join())).size === pairs.length;
}
