'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import styles from './CloseLook.module.css';

/** Whoever leads may close a batch before the last answer has come; her own answers first. */
export function CloseLook({ looks, evaluation }: { readonly looks: readonly LookView[]; readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const close = useMutation(trpc.look.close.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const [look] = looks;
  if (!evaluation.viewer.leads || !look) return null;
  const ownFirst = looks.some((one) => one.mayAnswer && one.own === null);
  const answers = looks.some((one) => one.mayAnswer);
  const one = looks.length === 1;
  const stopped = look.state === 'closed';
  const words = refusalDetails(close.error)?.code === 'own-card-open' ? 'Give your own answers first.' : null;
  return (
    <div className={styles.close}>
      <p className="small">
        {stopped
            ? 'Show the answers that are in the restored data; another look can be opened after.'
            : `${one ? 'The look' : 'The batch'} closes by itself with the last answer of the seats that ${look.medium === 'table' ? 'see the table' : 'may answer'}. ${
                answers
                  ? 'Close it early if a seat has gone; answers given by then count, and the record says who was awaited.'
                  : 'Your seat answers none of it, so you can close it only when nobody is awaited any more: when a seat has gone, the owner ends its session in the set-up.'
              }`}
        {ownFirst ? ' Before you can close it, give your own answers.' : ''}
      </p>
      <div>
        <Button busy={close.isPending} disabled={ownFirst} onClick={() => close.mutate({ id: evaluation.id, batchId: look.batchId })}>
          {stopped ? 'Show the answers' : `Close the ${one ? 'look' : 'batch'} now`}
        </Button>
      </div>
      <Refusal error={close.error} words={words} />
    </div>
  );
}
