'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { LookView } from '#lib/contract/lookView';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';

export type Choice = NonNullable<LookView['own']>['choice'];
type Answer = { readonly choice: Choice; readonly criterion: string | null };

/** Sends one's own answer. The same answer pressed again after a lost link keeps its id, so that it cannot count twice (SC2). */
export function useLookAnswer(evaluationId: string, lookId: string) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [sent, setSent] = useState<{ readonly answer: Answer; readonly id: string } | null>(null);
  const mutation = useMutation(
    trpc.look.answer.mutationOptions({
      onSuccess: () => {
        setSent(null);
        return queries.invalidateQueries();
      },
    }),
  );
  const give = (answer: Answer) => {
    const again = sent !== null && sent.answer.choice === answer.choice && sent.answer.criterion === answer.criterion;
    const id = again ? sent.id : freshId();
    setSent({ answer, id });
    mutation.mutate({ id: evaluationId, answer: { id, lookId, ...answer, madeAt: Date.now() } });
  };
  return { give, busy: mutation.isPending, error: mutation.error };
}
