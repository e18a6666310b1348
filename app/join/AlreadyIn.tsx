'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPCClient } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { onlyHereWords, useOnlyHere } from '../_parts/useOnlyHere';
import { Refusal } from '../_parts/Refusal';
import { homeOf } from './useArrive';
import styles from './join.module.css';

/** One browser holds one place: what can be done instead. */
export function AlreadyIn({ me }: { readonly me: SessionView }) {
  const client = useTRPCClient();
  const queries = useQueryClient();
  const asked = useOnlyHere();
  const leave = useMutation({
    mutationFn: () => client.session.leave.mutate(),
    onSuccess: () => queries.resetQueries(),
  });
  const who = me.owner ? 'the owner' : `the seat “${me.seat?.label ?? ''}”`;
  return (
    <>
      <h1>This browser is {who}</h1>
      <p>
        One browser holds one place, so no link or code was used up. Open it on another device, or in another browser,
        if it is meant for somebody else.
      </p>
      <p>
        <Link className={styles.go} href={homeOf(me)}>
          {me.owner ? 'To the first page' : 'To your scoring page'}
        </Link>
      </p>
      {!me.owner ? (
        <div className="stack starts topped gap-12 parted">
          {asked.isSuccess || asked.isError ? (
            <>
              <p role="status">{onlyHereWords(asked.data)}</p>
              <p>The seat on this device ends at once and its link does not come back.</p>
              <Button tone="stop" busy={leave.isPending} onClick={() => leave.mutate()}>
                Yes, leave this seat
              </Button>
            </>
          ) : (
            <Button busy={asked.isPending} onClick={() => asked.mutate()}>
              Leave this seat …
            </Button>
          )}
          <Refusal error={leave.error} />
        </div>
      ) : null}
    </>
  );
}
