'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import styles from './CloseLook.module.css';
import type { OpenLookProps } from './OpenLookTable';

/** Whoever leads may close before the last answer has come; her own answer first. */
export function CloseLook({ look, evaluation }: OpenLookProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const close = useMutation(trpc.look.close.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  if (!evaluation.viewer.leads) return null;
  const ownFirst = look.mayAnswer && look.own === null;
  const words = refusalDetails(close.error)?.code === 'own-card-open' ? 'Give your own answer first.' : null;
  return (
    <div className={styles.close}>
      <p className="small">
        The look closes by itself with the last answer of the seats that see the table. Close it early if a seat has gone; answers given by then count.
        {ownFirst ? ' Before you can close it, give your own answer.' : ''}
      </p>
      <div>
        <Button busy={close.isPending} disabled={ownFirst} onClick={() => close.mutate({ id: evaluation.id, batchId: look.batchId })}>
          Close the look now
        </Button>
      </div>
      <Refusal error={close.error} words={words} />
    </div>
  );
}
