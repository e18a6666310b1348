'use client';

import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import styles from './score.module.css';

/** Takes a puppy out of the evaluation, with the reason, and brings it back until the reveal. */
export function WithdrawForm() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const withdraw = useMutation(trpc.evaluation.withdrawPuppy.mutationOptions());
  const bringBack = useMutation(trpc.evaluation.bringBackPuppy.mutationOptions());
  const [puppyId, choose] = useState('');
  const [reason, write] = useState('');
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const shown = new Set(evaluation.round?.showings.map((showing) => showing.puppyId));
  const out = evaluation.puppies.filter((puppy) => puppy.withdrawn && shown.has(puppy.id));
  const done = () => {
    choose('');
    write('');
  };
  return (
    <div className={`stack topped gap-12 ${styles.withdraw}`}>
      {out.map(({ id, name }) => (
        <p key={id} className="wrap centred between gap-8">
          {name} is withdrawn.
          <Button busy={bringBack.isPending} onClick={() => bringBack.mutate({ id: evaluation.id, puppyId: id })}>
            Bring {name} back
          </Button>
        </p>
      ))}
      <Refusal error={bringBack.error} />
      <Disclosure bare words="Withdraw a puppy">
        <form
          className="stack starts gap-12"
          onSubmit={(event) => {
            event.preventDefault();
            withdraw.mutate({ id: evaluation.id, puppyId, reason: reason.trim() }, { onSuccess: done });
          }}
        >
          <p className="small">
            It leaves this evaluation for everybody. Until the reveal you can bring it back, with all that was scored of
            it; a card locked meanwhile stays as it was locked. The record keeps the reason, and that it came back.
          </p>
          <FieldChoice
            label="Puppy"
            value={puppyId}
            options={[{ key: '', words: 'choose one' }, ...puppies.map(({ id, name }) => ({ key: id, words: name }))]}
            onChange={choose}
          />
          <FieldText label="Reason" value={reason} maxLength={200} onChange={write} />
          <Refusal error={withdraw.error} />
          <Button type="submit" tone="stop" busy={withdraw.isPending} disabled={puppyId === '' || reason.trim() === ''}>
            Withdraw
          </Button>
        </form>
      </Disclosure>
    </div>
  );
}
