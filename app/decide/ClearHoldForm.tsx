'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState, type FormEvent } from 'react';
import type { Hold } from '#lib/contract/decisionView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { checkByKey } from '#lib/sheet/checkByKey';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import styles from './ClearHoldForm.module.css';

type ClearProps = { readonly hold: Hold; readonly evaluation: EvaluationView; readonly puppyName: string };

/** Writes down what a veterinary surgeon said, and who. Whatever the words, the hold falls: the answer is for people to read. */
export function ClearHoldForm({ hold, evaluation, puppyName }: ClearProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [answer, setAnswer] = useState('');
  const [by, setBy] = useState('');
  const clear = useMutation(trpc.decision.clearHold.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const ready = answer.trim() !== '' && by.trim() !== '';
  const about = `${puppyName}, ${checkByKey(hold.check)?.name.toLowerCase() ?? hold.check}`;
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) clear.mutate({ id: evaluation.id, puppyId: hold.puppyId, check: hold.check, answer, by });
  };
  return (
    <form onSubmit={send} className={styles.form} aria-label={`Veterinary answer: ${about}`}>
      <FieldText label="What the veterinary surgeon said" value={answer} onChange={setAnswer} maxLength={300} />
      <FieldText label="Who said it" hint="Surgeon or practice, and when." value={by} onChange={setBy} maxLength={80} />
      <div>
        <Button type="submit" busy={clear.isPending} disabled={!ready}>
          Record a veterinary answer
        </Button>
      </div>
      <p className="small">The hold falls with any recorded answer, and the answer stays in the record as written.</p>
      <Refusal error={clear.error} />
    </form>
  );
}
