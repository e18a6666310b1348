'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Loading } from '../_parts/Loading';
import { AlreadyIn } from './AlreadyIn';
import { CodeForm } from './CodeForm';
import styles from './JoinForm.module.css';
import { LetIn } from './LetIn';
import { LinkOffer } from './LinkOffer';
import { useLinkToken } from './useLinkToken';
import { Waiting } from './Waiting';

const tokenForm = /^[A-Za-z0-9_-]{20,100}$/;

/** The way in: by a link, whose secret stands after the #, or by a spoken code that is typed here. */
export function JoinForm() {
  const trpc = useTRPC();
  const token = useLinkToken();
  const me = useQuery(trpc.session.me.queryOptions());
  const [asked, setAsked] = useState(false);
  if (me.data?.asking && !asked) setAsked(true);
  return (
    <main className={styles.page}>
      <p className={styles.mark}>Evenstack</p>
      {token === null || (me.isPending && !me.isError) ? (
        <Loading what="your place" />
      ) : me.data && (me.data.owner || me.data.seat) ? (
        asked ? <LetIn me={me.data} /> : <AlreadyIn me={me.data} />
      ) : tokenForm.test(token) ? (
        <LinkOffer token={token} />
      ) : me.data?.asking ? (
        <Waiting asking={me.data.asking} />
      ) : (
        <CodeForm cutShort={token !== ''} />
      )}
    </main>
  );
}
