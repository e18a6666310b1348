'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { shotKeys, shots, type ShotKey } from '#lib/photo/shot';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import styles from './Photos.module.css';

/** The owner's choice of views, folded away until it is wanted. */
export function ShotListForm({ evaluationId, shots: wanted }: { readonly evaluationId: string; readonly shots: readonly ShotKey[] }) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [chosen, choose] = useState<readonly ShotKey[]>(wanted);
  const save = useMutation(trpc.photo.saveList.mutationOptions({ onSuccess: () => queries.invalidateQueries(trpc.photo.list.queryFilter({ id: evaluationId })) }));
  return (
    <details>
      <summary>Change the shot list</summary>
      <fieldset className={styles.listForm}>
        <legend className="small">Views wanted of each puppy. Pictures taken already stay.</legend>
        {shotKeys.map((shot) => (
          <FieldTick
            key={shot}
            label={shots[shot].name}
            ticked={chosen.includes(shot)}
            onChange={(on) => choose(shotKeys.filter((key) => (key === shot ? on : chosen.includes(key))))}
          />
        ))}
      </fieldset>
      <Refusal error={save.error} />
      <Button busy={save.isPending} disabled={chosen.length === 0} onClick={() => save.mutate({ id: evaluationId, shots: [...chosen] })}>
        Save the list
      </Button>
    </details>
  );
}
