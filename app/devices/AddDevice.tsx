'use client';

import { useMutation } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { ShownCode } from '../_parts/ShownCode';
import styles from './Devices.module.css';

/** A code by which a further device of the same person may ask. */
export function AddDevice({ demo }: { readonly demo: boolean }) {
  const trpc = useTRPC();
  const make = useMutation(trpc.session.furtherCode.mutationOptions());
  if (demo) return <p className="small">In the demo this copy belongs to your browser alone: no other device can be let in.</p>;
  return (
    <section className={styles.part}>
      <h2>Use another device of yours</h2>
      <p>Make a code here. On the other device open this same address followed by /join, and type it there. Then let it in here.</p>
      {make.data ? <ShownCode code={make.data.code} expiresAt={make.data.expiresAt} further /> : null}
      <Refusal error={make.error} />
      <div className={styles.actions}>
        <Button busy={make.isPending} onClick={() => make.mutate()}>
          {make.data ? 'Make another code' : 'Make a code'}
        </Button>
      </div>
    </section>
  );
}
