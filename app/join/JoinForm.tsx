'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { useRouter } from 'next/navigation';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC, useTRPCClient } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { onlyHereWords } from '../_parts/onlyHereWords';
import { Refusal } from '../_parts/Refusal';
import { useOnlyHere } from '../_parts/useOnlyHere';
import styles from './JoinForm.module.css';
import { useLinkToken } from './useLinkToken';

const tokenForm = /^[A-Za-z0-9_-]{20,100}$/;

/** The link's page. It dies at first use, so nothing is sent before a person presses: a preview must not use it up. */
export function JoinForm() {
  const trpc = useTRPC();
  const token = useLinkToken();
  const me = useQuery(trpc.session.me.queryOptions());
  return (
    <main className={styles.page}>
      <p className={styles.mark}>Evenstack</p>
      {token === null || (me.isPending && !me.isError) ? (
        <Loading what="your place" />
      ) : me.data && (me.data.owner || me.data.seat) ? (
        <AlreadyIn me={me.data} />
      ) : (
        <Offer token={token} />
      )}
    </main>
  );
}

function Offer({ token }: { readonly token: string }) {
  const join = useJoin(token);
  if (!tokenForm.test(token)) {
    return (
      <>
        <h1>This link is not complete</h1>
        <p>The part after # is missing or cut short. Open the whole link as it was sent, or ask the owner for a fresh one.</p>
      </>
    );
  }
  return (
    <>
      <h1>Take your place at the panel</h1>
      <ul className={styles.points}>
        <li>This browser takes the place the link was made for: no account, no password.</li>
        <li>The link works once. Press only on the device you will use on the day.</li>
        <li>Everybody scores alone. Nobody sees another’s scores before the reveal, the owner included.</li>
      </ul>
      <Refusal error={join.error} />
      <Button tone="main" busy={join.isPending || join.isSuccess} onClick={() => join.mutate()}>
        Join on this device
      </Button>
    </>
  );
}

/** Exchanges the link, takes the secret out of the address and the history, and goes where this seat belongs. */
function useJoin(token: string) {
  const client = useTRPCClient();
  const queries = useQueryClient();
  const router = useRouter();
  return useMutation({
    mutationFn: async () => {
      await client.session.join.mutate({ token });
      window.history.replaceState(null, '', '/join');
      return client.session.me.query();
    },
    onSuccess: (me) => {
      router.replace(homeOf(me));
      // What an earlier seat of this browser had read must not show to the next one.
      return queries.resetQueries();
    },
  });
}

function homeOf({ owner, seat }: SessionView): string {
  return owner || !seat ? '/' : `/score?id=${seat.evaluationId}`;
}

function AlreadyIn({ me }: { readonly me: SessionView }) {
  const client = useTRPCClient();
  const queries = useQueryClient();
  const asked = useOnlyHere();
  const leave = useMutation({ mutationFn: () => client.session.leave.mutate(), onSuccess: () => queries.resetQueries() });
  const who = me.owner ? 'the owner' : `the seat “${me.seat?.label ?? ''}”`;
  return (
    <>
      <h1>This browser is {who}</h1>
      <p>One browser holds one place, so the link was not used up. Open it on another device, or in another browser, if it is meant for somebody else.</p>
      <p>
        <Link className={styles.go} href={homeOf(me)}>
          {me.owner ? 'To the first page' : 'To your scoring page'}
        </Link>
      </p>
      {!me.owner && (
        <div className={styles.leave}>
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
      )}
    </>
  );
}
