'use client';

import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import styles from './TableControl.module.css';

/** Takes a puppy out of the evaluation, with the reason, for good. */
export function WithdrawForm({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const withdraw = useMutation(trpc.evaluation.withdrawPuppy.mutationOptions());
  const [puppyId, choose] = useState('');
  const [reason, write] = useState('');
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const done = () => {
    choose('');
    write('');
  };
  return (
    <details className={styles.withdraw}>
      <summary>Withdraw a puppy</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          withdraw.mutate({ id: evaluation.id, puppyId, reason: reason.trim() }, { onSuccess: done });
        }}
      >
        <p className="small">It leaves this evaluation for everybody and cannot be brought back. What was scored of it stays in the history. The record keeps the reason.</p>
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
    </details>
  );
}
