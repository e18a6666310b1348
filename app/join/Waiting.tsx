'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CodeForm } from './CodeForm';
import styles from './JoinForm.module.css';

type WaitingProps = { readonly asking: NonNullable<SessionView['asking']> };

/** Without a session no doorbell rings here, so that it asks, unhurriedly. */
const everyMs = 3000;

/** A further device that its first has to let in: both show the same four digits. JoinForm goes on once it is in. */
export function Waiting({ asking }: WaitingProps) {
  const trpc = useTRPC();
  const [again, setAgain] = useState(false);
  const waiting = asking.state === 'waiting';
  useQuery({ ...trpc.session.me.queryOptions(), refetchInterval: waiting ? everyMs : false, refetchIntervalInBackground: true });
  if (again) return <CodeForm cutShort={false} />;
  if (!waiting) {
    return (
      <>
        <h1>{asking.state === 'refused' ? 'Your first device said no' : 'Nobody answered in time'}</h1>
        <p>This device was not let in. Make a fresh code on your first device, and type it here.</p>
        <Button tone="main" onClick={() => setAgain(true)}>
          Type another code
        </Button>
      </>
    );
  }
  return (
    <>
      <h1>Now your first device</h1>
      <p>On the device that already has your place, open “Your devices” from the first page. Let this one in if it shows the same number:</p>
      <p className={styles.digits} aria-label={`Number ${Array.from(asking.digits).join(' ')}`}>
        {asking.digits}
      </p>
      <p role="status" className="small">
        Waiting for your first device. Only a device of the same place can let this one in; nobody else can, the owner included.
      </p>
    </>
  );
}
