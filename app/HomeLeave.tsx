'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from './_data/trpc';
import { Button } from './_parts/Button';
import { Refusal } from './_parts/Refusal';
import styles from './Home.module.css';

/** Signing out, in two presses: the way back in is a link that has been used up. */
export function HomeLeave({ owner }: { readonly owner: boolean }) {
  const [asked, setAsked] = useState(false);
  const trpc = useTRPC();
  const queries = useQueryClient();
  const leave = useMutation(trpc.session.leave.mutationOptions({ onSuccess: () => queries.resetQueries() }));
  if (!asked) {
    return (
      <div className={styles.actions}>
        <Button onClick={() => setAsked(true)}>Sign out of this browser</Button>
      </div>
    );
  }
  return (
    <section className={styles.part} aria-label="Sign out">
      <p>
        {owner
          ? 'Your link has been used up. To come back you need a fresh owner’s link, which is printed each time Evenstack is started.'
          : 'Your link has been used up. Once signed out, this browser cannot take the seat again by itself: ask the owner first.'}
      </p>
      <Refusal error={leave.error} />
      <div className={styles.actions}>
        <Button tone="stop" busy={leave.isPending} onClick={() => leave.mutate()}>
          Sign out now
        </Button>
        <Button onClick={() => setAsked(false)}>Stay</Button>
      </div>
    </section>
  );
}
