import Link from 'next/link';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EmptyState } from '../_parts/EmptyState';
import { listWords } from './listWords';

/** What the board waits for: who has yet to lock, and who reveals. No score and nothing made from one exists for anybody before. */
export function BoardWaiting({ evaluation }: { readonly evaluation: EvaluationView }) {
  return (
    <EmptyState title="The board opens at the reveal">
      <p>{waitingWords(evaluation)}</p>
      <p className="small">Until then it shows nothing to anybody, the owner included: every seat scores for itself, and nothing is worked out from several cards.</p>
      {evaluation.phase === 'scoring' ? <Link href={`/score?id=${evaluation.id}`}>To the scoring</Link> : null}
    </EmptyState>
  );
}

function waitingWords({ round, seats, viewer }: EvaluationView): string {
  if (!round) return 'Scoring has not begun.';
  if (round.state === 'closed') return viewer.owner ? 'The round is closed. You reveal it on the scoring page.' : 'The round is closed. The owner reveals it.';
  const open = seats.filter((seat) => seat.kind !== 'none' && seat.state !== 'locked').map((seat) => seat.label);
  return open.length === 0 ? 'Every seat has locked its card. The owner closes and reveals the round.' : `Not locked yet: ${listWords(open)}.`;
}
