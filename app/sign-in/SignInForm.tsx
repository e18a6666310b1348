'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { AlreadyIn } from '../join/AlreadyIn';
import styles from '../join/join.module.css';
import { useArrive } from '../join/useArrive';
import { Button } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { SecretField } from '../_parts/SecretField';

/** For the owner on a device that she has not used before. */
export function SignInForm() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  return (
    <main className={`stack gap-20 ${styles.page}`}>
      <p className={styles.mark}>Evenstack</p>
      {me.isPending && !me.isError ? (
        <Loading what="who this browser is" />
      ) : me.data && (me.data.owner || me.data.seat) ? (
        <AlreadyIn me={me.data} />
      ) : (
        <Passphrase />
      )}
    </main>
  );
}

function Passphrase() {
  const [typed, setTyped] = useState('');
  const signIn = useArrive<string>((client, passphrase) => client.session.signIn.mutate({ passphrase }));
  return (
    <>
      <h1>Sign in as the owner</h1>
      <p>With the passphrase you set, or with one of the recovery codes you wrote down then. Each code works once.</p>
      <form
        className={`stack gap-16 ${styles.form}`}
        onSubmit={(event) => {
          event.preventDefault();
          if (typed.trim() !== '') signIn.mutate(typed);
        }}
      >
        <SecretField
          label="Passphrase or recovery code"
          value={typed}
          autoComplete="current-password"
          onChange={setTyped}
        />
        <Refusal error={signIn.error} />
        <Button type="submit" tone="main" busy={signIn.isPending}>
          Sign in
        </Button>
      </form>
      <p className="small">
        Neither at hand? A fresh owner’s link is printed each time Evenstack is started. Evaluators need no passphrase:{' '}
        <Link href="/join">they join by link or spoken code</Link>.
      </p>
    </>
  );
}
