'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { Refusal } from '../_parts/Refusal';
import { LinkAddress } from '../setup/LinkAddress';
import styles from './home.module.css';

type HomeLinksProps = { readonly id: string; readonly puppies: readonly PuppyFace[] };

/** For the owner, once the record is sealed: a link for each puppy's home to its own note. */
export function HomeLinks({ id, puppies }: HomeLinksProps) {
  const trpc = useTRPC();
  const [address, setAddress] = useState<string | null>(null);
  const linked = useQuery(trpc.home.list.queryOptions({ id }));
  return (
    <section className="stack gap-12 unprinted" aria-label="Notes for homes">
      <h2>Notes for homes</h2>
      <p>Each home gets its own puppy’s note: what was found on it and when to look again. No score, and nothing of its littermates.</p>
      <LinkAddress address={address} onChange={setAddress} />
      <Refusal error={linked.error} />
      <ul className="list topped lined unless-empty">
        {puppies
          .filter((puppy) => !puppy.withdrawn)
          .map((puppy) => (
            <HomeLine key={puppy.id} id={id} puppy={puppy} linked={linked.data?.includes(puppy.id) ?? false} address={address} />
          ))}
      </ul>
    </section>
  );
}

type HomeLineProps = { readonly id: string; readonly puppy: PuppyFace; readonly linked: boolean; readonly address: string | null };

function HomeLine({ id, puppy, linked, address }: HomeLineProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const onSuccess = () => queries.invalidateQueries();
  const make = useMutation(trpc.home.link.mutationOptions({ onSuccess }));
  const end = useMutation(
    trpc.home.end.mutationOptions({
      onSuccess: () => {
        make.reset();
        return onSuccess();
      },
    }),
  );
  const ids = { id, puppyId: puppy.id };
  return (
    <li className={`stack gap-2 ${styles.row}`}>
      <b>{puppy.name}</b>
      {make.data && linked ? (
        <Field label={`Link for ${puppy.name}’s home`} hint="Shown this once. It can be opened again and again, until it is ended.">
          {(field) => <input {...field} readOnly value={`${address ?? window.location.origin}/home#${make.data.token}`} className={`key ${fieldStyles.control}`} onFocus={(event) => event.target.select()} />}
        </Field>
      ) : null}
      <Refusal error={make.error ?? end.error} />
      <div className="tools">
        <Button tone="quiet" busy={make.isPending} aria-label={`${linked ? 'Make a fresh link' : 'Make a link'} for ${puppy.name}’s home`} onClick={() => make.mutate(ids)}>
          {linked ? 'Make a fresh link' : 'Make a link'}
        </Button>
        {linked ? (
          <Button tone="quiet" busy={end.isPending} aria-label={`End the link of ${puppy.name}’s home`} onClick={() => end.mutate(ids)}>
            End its link
          </Button>
        ) : null}
      </div>
    </li>
  );
}
