import type { EvaluationFacts } from './facts';

/** What something was made under: the newest round, and the batch of second looks that was open. */
export type MadeUnder = { readonly roundId: string | null; readonly lookBatchId: string | null };

type Open = Pick<EvaluationFacts, 'round' | 'openBatchId'>;

/**
 * Whether what a seat marks, measures, notes or asks now is told to the others at once. While a round is not revealed, or a
 * batch of second looks is open, it is its author's alone until that is revealed (BL1, BL8), and only the author's own counter moves (BL4).
 */
export function toldAtOnce({ round, openBatchId }: Open): boolean {
  return round?.state === 'revealed' && openBatchId === null;
}

export function madeUnder({ round, openBatchId }: Open): MadeUnder {
  return { roundId: round?.id ?? null, lookBatchId: openBatchId };
}
