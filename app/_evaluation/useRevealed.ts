'use client';

import { useQuery } from '@tanstack/react-query';
import type { Addendum } from '#lib/contract/addendum';
import type { BoardView } from '#lib/contract/boardView';
import type { DecisionView, DiscussionNote } from '#lib/contract/decisionView';
import type { LookView } from '#lib/contract/lookView';
import { useTRPC } from '../_data/trpc';

export type Revealed = {
  readonly board: BoardView;
  readonly decision: DecisionView;
  readonly looks: readonly LookView[];
  readonly notes: readonly DiscussionNote[];
  readonly addenda: readonly Addendum[];
};

type Asked =
  | { readonly state: 'waiting' }
  | { readonly state: 'refused'; readonly error: unknown }
  | { readonly state: 'here'; readonly revealed: Revealed };

/** Everything that exists from the reveal on. Ask only for an evaluation whose round is revealed: before, it is all refused. */
export function useRevealed(id: string): Asked {
  const trpc = useTRPC();
  const board = useQuery(trpc.board.get.queryOptions({ id }));
  const decision = useQuery(trpc.decision.get.queryOptions({ id }));
  const looks = useQuery(trpc.look.list.queryOptions({ id }));
  const notes = useQuery(trpc.board.notes.queryOptions({ id }));
  const addenda = useQuery(trpc.addendum.list.queryOptions({ id }));
  if (board.data && decision.data && looks.data && notes.data && addenda.data) {
    return {
      state: 'here',
      revealed: {
        board: board.data,
        decision: decision.data,
        looks: looks.data,
        notes: notes.data,
        addenda: addenda.data,
      },
    };
  }
  const error = board.error ?? decision.error ?? looks.error ?? notes.error ?? addenda.error;
  return error === null ? { state: 'waiting' } : { state: 'refused', error };
}
