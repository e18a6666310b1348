'use client';

import { useState } from 'react';
import type { PuppyFace, Showing } from '#lib/contract/evaluationView';
import type { RoundView, Scoring } from './useScoring';

export type Shown = {
  readonly showing: Showing;
  readonly puppy: PuppyFace;
  /** From 0, in this seat's order. */
  readonly index: number;
  /** The puppy on the table now; null in a photograph round. */
  readonly table: { readonly showing: Showing; readonly puppy: PuppyFace } | null;
  /** The puppy that was left when the table moved on by itself; null once seen to. */
  readonly left: { readonly showing: Showing; readonly puppy: PuppyFace } | null;
  readonly go: (showingId: string) => void;
  readonly forgetLeft: () => void;
};

type Ahead = { readonly table: string | null; readonly link: string | null; readonly round: RoundView };

/**
 * Which puppy this device shows. At a table it follows the table, at once on the doorbell and ahead of the refetch,
 * unless the person has gone to another puppy of her own accord. In a photograph round there is no table.
 */
export function useShowing(scoring: Scoring): Shown | null {
  const { round, link } = scoring;
  const tableId = useTable(round, link.table);
  const [own, setOwn] = useState<string | null>(null);
  const [seen, setSeen] = useState(tableId);
  const [leftId, setLeft] = useState<string | null>(null);
  if (tableId !== seen) {
    setSeen(tableId);
    setLeft(own === null ? seen : leftId);
    if (own === tableId) setOwn(null);
  }
  const find = (id: string | null) => faceOf(scoring, id);
  const current = find(own) ?? find(tableId) ?? find(round.showings[0]?.id ?? null);
  if (!current) return null;
  const left = find(leftId);
  return {
    ...current,
    index: round.showings.findIndex((one) => one.id === current.showing.id),
    table: find(tableId),
    left: left && left.showing.id !== current.showing.id ? left : null,
    go: (id) => {
      setOwn(id === tableId ? null : id);
      if (id === leftId) setLeft(null);
    },
    forgetLeft: () => setLeft(null),
  };
}

/** What the last doorbell named, until a read made after it says more. */
function useTable(round: RoundView, rung: string | null): string | null {
  const [ahead, setAhead] = useState<Ahead>({ table: null, link: rung, round });
  if (rung !== ahead.link) setAhead({ table: rung, link: rung, round });
  else if (round !== ahead.round && ahead.table !== null) setAhead({ table: null, link: rung, round });
  if (round.medium !== 'table') return null;
  return ahead.table ?? round.tableShowingId;
}

/** A showing with its puppy. */
export function faceOf({ round, evaluation }: Pick<Scoring, 'round' | 'evaluation'>, id: string | null): { readonly showing: Showing; readonly puppy: PuppyFace } | null {
  const showing = round.showings.find((one) => one.id === id);
  const puppy = evaluation.puppies.find((one) => one.id === showing?.puppyId);
  return showing && puppy ? { showing, puppy } : null;
}
