'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { Button, ButtonLink } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { onlyHereWords, useOnlyHere } from '../_parts/useOnlyHere';
import styles from './start.module.css';

/** The way to one's devices; says so when one asks to be let in. */
export function DevicesWay() {
  const trpc = useTRPC();
  const devices = useQuery(trpc.session.devices.queryOptions());
  const asking = (devices.data?.asking.length ?? 0) > 0;
  return (
    <section className={styles.part} aria-label="Your devices">
      {asking ? (
        <p role="status" className={styles.warn}>
          A device asks to be let in to your place.
        </p>
      ) : null}
      <div className={styles.actions}>
        <ButtonLink href="/devices" tone={asking ? 'main' : 'plain'}>
          {asking ? 'See which device asks' : 'Your devices'}
        </ButtonLink>
      </div>
    </section>
  );
}

type LeaveProps = {
  /** The seat this device holds; null for the owner, whose seats are found by her evaluations. */
  readonly seat: SessionView['seat'];
};

/** Signing out, in two presses: the way back in is a link that has been used up, and entries not yet sent would be lost. */
export function Leave({ seat }: LeaveProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const asked = useOnlyHere();
  const leave = useMutation(trpc.session.leave.mutationOptions({ onSuccess: () => queries.resetQueries() }));
  if (asked.isIdle || asked.isPending) {
    return (
      <div className={styles.actions}>
        <Button busy={asked.isPending} onClick={() => asked.mutate()}>
          Sign out of this browser
        </Button>
      </div>
    );
  }
  return (
    <section className={styles.part} aria-label="Sign out">
      <p role="status" className={asked.data?.entries === 0 && asked.data.pictures === 0 ? undefined : styles.warn}>
        {onlyHereWords(asked.data)}
      </p>
      <p>
        {seat === null
          ? 'Your link has been used up. To come back you need your passphrase, if you have set one, or a fresh owner’s link, which is printed each time Evenstack is started.'
          : 'Your link has been used up. Once signed out, this browser cannot take the seat again by itself: another device of yours has to let it in, or the owner has to issue the seat again.'}
      </p>
      <Refusal error={leave.error} />
      <div className={styles.actions}>
        <Button tone="stop" busy={leave.isPending} onClick={() => leave.mutate()}>
          Sign out now
        </Button>
        <Button onClick={() => asked.reset()}>Stay</Button>
      </div>
    </section>
  );
}
