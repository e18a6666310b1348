'use client';

import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { EmptyState } from '../_parts/EmptyState';
import { ImportDesk } from './ImportDesk';

/** `/import?id=…`: typed scores into the own seat's cards. */
export function ImportScreen() {
  return (
    <EvaluationFrame title="Typed scores">
      <ImportOrWhyNot />
    </EvaluationFrame>
  );
}

function ImportOrWhyNot() {
  const { seats, viewer, round } = useEvaluation();
  const seat = seats.find((one) => one.id === viewer.seatId);
  if (!seat || seat.kind === 'none') return <WhyNot title="Your seat does not score" />;
  if (round?.state !== 'open') return <WhyNot title="The round is not open" />;
  if (seat.state === 'locked') return <WhyNot title="Your card is locked" />;
  return <ImportDesk seat={seat} />;
}

function WhyNot({ title }: { readonly title: string }) {
  return (
    <EmptyState title={title}>
      <p>Typed scores can be brought in while the round is open and your own card is not locked.</p>
    </EmptyState>
  );
}
