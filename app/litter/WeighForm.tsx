'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { ageInDays } from '#lib/evaluation/ages';
import type { LitterView } from '#lib/contract/litter';
import { useTRPCClient } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/textWords';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { useFocusFirst } from '../_parts/useFocusFirst';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import styles from './litter.module.css';

type WeighFormProps = { readonly litter: LitterView; readonly today: string; readonly onClose: () => void };

/** One day's weights for the whole litter; blank means not weighed. A second weight on one day replaces the first. */
export function WeighForm({ litter, today, onClose }: WeighFormProps) {
  const [day, setDay] = useState(today);
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [tried, setTried] = useState(false);
  const form = useFocusFirst();
  const save = useSaveWeights(litter.id, onClose);
  const filled = litter.puppies.flatMap((puppy) => {
    const text = typed[puppy.id]?.trim() ?? '';
    return text === '' ? [] : [{ puppyId: puppy.id, text }];
  });
  useUnsavedGuard(filled.length > 0 && !save.isSuccess);
  const dayFault = day === '' ? 'On which day?' : day < litter.whelpedOn ? 'That is before the whelping date.' : null;
  const sound = filled.length > 0 && dayFault === null && filled.every(({ text }) => weightFault(text) === null);
  return (
    <form
      ref={form}
      className={`sheet stack gap-16 boxed ${styles.weigh}`}
      noValidate
      aria-label="Weigh the litter"
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (sound)
          save.mutate(
            filled.map(({ puppyId, text }) => ({ puppyId, weight: { weighedOn: day, grams: Number(text) } })),
          );
      }}
    >
      <FieldText
        label="Weighed on"
        kind="date"
        value={day}
        hint={dayFault === null ? `${counted(ageInDays(litter.whelpedOn, day), 'day')} old` : undefined}
        fault={tried ? dayFault : null}
        onChange={setDay}
      />
      <div className={styles.grams}>
        {litter.puppies.map((puppy) => (
          <FieldText
            key={puppy.id}
            label={`${puppy.name}, grams`}
            kind="number"
            maxLength={5}
            value={typed[puppy.id] ?? ''}
            fault={tried ? weightFault(typed[puppy.id] ?? '') : null}
            onChange={(text) => setTyped((before) => ({ ...before, [puppy.id]: text }))}
          />
        ))}
      </div>
      {tried && filled.length === 0 ? <p role="alert">Type at least one weight.</p> : null}
      <Refusal error={save.error} />
      <div className={`wrap gap-12 ${styles.actions}`}>
        <Button type="submit" tone="main" busy={save.isPending}>
          Save weights
        </Button>
        <Button onClick={onClose}>Leave</Button>
      </div>
    </form>
  );
}

type Weighed = { readonly puppyId: string; readonly weight: { readonly weighedOn: string; readonly grams: number } };

/** One request a puppy, one after the other; repeating those already saved after a failure changes nothing. */
function useSaveWeights(litterId: string, onClose: () => void) {
  const client = useTRPCClient();
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async (weights: readonly Weighed[]) => {
      for (const weight of weights) await client.litter.saveWeight.mutate({ litterId, ...weight });
    },
    onSuccess: async () => {
      await queries.invalidateQueries();
      onClose();
    },
  });
}

function weightFault(text: string): string | null {
  const trimmed = text.trim();
  if (trimmed === '') return null;
  const grams = Number(trimmed);
  return /^\d+$/.test(trimmed) && grams >= 20 && grams <= 60_000 ? null : 'Whole grams, 20 to 60000.';
}
