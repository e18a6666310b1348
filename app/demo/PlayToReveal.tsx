'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import styles from './Demo.module.css';

/** One press to the reveal, saying before what it does with the visitor's own card. */
export function PlayToReveal() {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const play = useMutation(trpc.demo.playToReveal.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  return (
    <div className={styles.skip}>
      <p>
        No patience for nine puppies? This locks your card as it stands, lets the scripted seats finish theirs and lock, and reveals. Until then nothing
        shows, and after that nothing goes back.
      </p>
      <Button busy={play.isPending} onClick={() => play.mutate()}>
        Bring it to its reveal
      </Button>
      {play.isPending ? (
        <p role="status" className="small">
          The scripted seats are finishing their cards…
        </p>
      ) : null}
      <Refusal error={play.error} />
    </div>
  );
}
