'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import type { LitterInput } from '#lib/contract/litter';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import styles from './litter.module.css';

type LitterFormProps = { readonly id: string | null; readonly litter: LitterInput; readonly onDone?: () => void };

/** Name, breed, parents, whelping date. Saving a new one opens its page. */
export function LitterForm({ id, litter, onDone }: LitterFormProps) {
  const [draft, setDraft] = useState(litter);
  const [tried, setTried] = useState(false);
  const router = useRouter();
  const queries = useQueryClient();
  const trpc = useTRPC();
  const save = useMutation(
    trpc.litter.save.mutationOptions({
      onSuccess: async (saved) => {
        await queries.invalidateQueries();
        if (id === null) router.replace(`/litter?id=${saved.id}`);
        onDone?.();
      },
    }),
  );
  useUnsavedGuard(!save.isSuccess && JSON.stringify(draft) !== JSON.stringify(litter));
  const set = (change: Partial<LitterInput>) => setDraft((before) => ({ ...before, ...change }));
  const faults = {
    name: draft.name.trim() === '' ? 'A litter needs a name to go by.' : null,
    whelpedOn: draft.whelpedOn === '' ? 'Age in days is counted from this day.' : null,
  };
  const send = () => {
    setTried(true);
    if (faults.name === null && faults.whelpedOn === null) save.mutate({ id, litter: draft });
  };
  return (
    <form
      className={`sheet stack gap-16 text boxed ${styles.form}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <FieldText
        label="Name of the litter"
        value={draft.name}
        maxLength={80}
        fault={tried ? faults.name : null}
        onChange={(name) => set({ name })}
      />
      <FieldText label="Breed" value={draft.breed} maxLength={80} onChange={(breed) => set({ breed })} />
      <FieldText
        label="Dam"
        hint="Parents are shown to no evaluator."
        value={draft.dam}
        maxLength={80}
        onChange={(dam) => set({ dam })}
      />
      <FieldText label="Sire" value={draft.sire} maxLength={80} onChange={(sire) => set({ sire })} />
      <FieldText
        label="Whelping date"
        kind="date"
        value={draft.whelpedOn}
        fault={tried ? faults.whelpedOn : null}
        onChange={(whelpedOn) => set({ whelpedOn })}
      />
      <Refusal error={save.error} />
      <div className={`wrap gap-12 ${styles.actions}`}>
        <Button type="submit" tone="main" busy={save.isPending}>
          Save litter
        </Button>
        {onDone ? <Button onClick={onDone}>Leave it as it was</Button> : null}
      </div>
    </form>
  );
}
