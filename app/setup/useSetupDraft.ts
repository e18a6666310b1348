'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { setupDraft, type SetupDraft, type SetupView } from './setupDraft';

export type Change = (change: Partial<SetupDraft>) => void;

/**
 * The set-up as typed, apart from what the server says: doorbells may refetch as they like, typing stays. Follows the
 * server again once saved; what was typed while the save was under way stays unsaved.
 */
export function useSetupDraft(view: SetupView) {
  const [typed, setTyped] = useState<SetupDraft | null>(null);
  const trpc = useTRPC();
  const queries = useQueryClient();
  const save = useMutation(
    trpc.setup.save.mutationOptions({
      onSuccess: async () => {
        await queries.invalidateQueries();
      },
    }),
  );
  const draft = typed ?? setupDraft(view);
  useUnsavedGuard(typed !== null);
  const change: Change = (part) => setTyped((before) => ({ ...(before ?? setupDraft(view)), ...part }));
  const send = (sent: SetupDraft) =>
    save.mutate({ id: view.id, ...sent }, { onSuccess: () => setTyped((now) => (now === typed ? null : now)) });
  return {
    draft,
    unsaved: typed !== null,
    change,
    send,
    saving: save.isPending,
    error: save.error,
    saved: save.isSuccess,
  };
}
