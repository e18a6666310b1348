'use client';

import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { SideBySide } from '../photos/SideBySide';

/** The photographs of what is being talked about, the same view of each; fetched when it is opened. */
export function PicturesBeside({ evaluation, puppyIds }: { readonly evaluation: EvaluationView; readonly puppyIds: readonly string[] }) {
  const [open, setOpen] = useState(false);
  if (puppyIds.length === 0) return null;
  const names = puppyIds.flatMap((id) => evaluation.puppies.find((puppy) => puppy.id === id)?.name ?? []);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Photographs{names.length > 1 ? ` side by side: ${names.join(' and ')}` : ` of ${names.join()}`}</summary>
      {open ? <SideBySide evaluation={evaluation} puppyIds={puppyIds} /> : null}
    </details>
  );
}
