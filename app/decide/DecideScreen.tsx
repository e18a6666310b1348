'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { facesOf } from '../_evaluation/facesOf';
import { isRescoring } from '../_evaluation/isRescoring';
import { useRevealed } from '../_evaluation/useRevealed';
import { CautionNote } from '../_parts/CautionNote';
import { Confirm } from '../_parts/Confirm';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { SecondRoundNotice } from '../_result/SecondRoundNotice';
import { heldKeeps } from '#lib/evaluation/pickOrder';
import { listWords } from '../_parts/textWords';
import { BehaviourSection } from './BehaviourSection';
import type { DecideGround, DecideProps } from './Candidates';
import { HoldsSection } from './HoldsSection';
import { PicksSection } from './PicksSection';

/** The pick order walked through, place by place; every seat sees it as it happens. */
export function DecideScreen() {
  return (
    <EvaluationFrame here="decision" beforeReveal={<TooEarly />}>
      <Decision />
    </EvaluationFrame>
  );
}

function TooEarly() {
  return (
    <EmptyState title="Decisions come after the reveal">
      <p>When the round is revealed, the pick order is walked through here, place by place.</p>
    </EmptyState>
  );
}

function Decision() {
  const evaluation = useEvaluation();
  const asked = useRevealed(evaluation.id);
  if (asked.state === 'refused') return <Refusal error={asked.error} />;
  if (asked.state === 'waiting') return <Loading what="the pick order" />;
  const props = { revealed: asked.revealed, faces: facesOf(evaluation) };
  return (
    <>
      {evaluation.phase === 'sealed' ? (
        <p className="told roomy">
          The record is sealed: nothing here changes any more.{' '}
          <Link href={`/record?id=${evaluation.id}`}>Read the record</Link>
        </p>
      ) : null}
      <SecondRoundNotice />
      <div className="beside">
        <PicksSection {...props} />
        <div className="stack gap-32">
          <HoldsSection {...props} />
          <BehaviourSection {...props} />
          <SealSection {...props} />
          <CautionNote caution="worth" />
          <CautionNote caution="local-law" />
        </div>
      </div>
    </>
  );
}

/** Seals the record once every place is picked. */
function SealSection({ revealed, faces }: DecideProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const seal = useMutation(trpc.decision.seal.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  if (evaluation.phase !== 'deciding') return null;
  return (
    <section aria-labelledby="seal" className="stack gap-12">
      <h2 id="seal">Seal the record</h2>
      {revealed.decision.maySeal && !isRescoring(evaluation) ? (
        <Confirm
          words="Seal the record"
          doIt="Seal it for good"
          busy={seal.isPending}
          onConfirm={() => seal.mutate({ id: evaluation.id })}
        >
          <p>
            After sealing, no pick can be made or taken back, no note written, and no second look opened. What comes
            later, a veterinary answer too, stands under the record as an addendum and opens no place. There is no
            unsealing.
          </p>
        </Confirm>
      ) : (
        <p>{waitingToSeal({ evaluation, revealed, faces })}</p>
      )}
      <Refusal error={seal.error} />
    </section>
  );
}

function waitingToSeal({ evaluation, revealed, faces }: DecideGround): string {
  if (evaluation.imported) return 'It was not sealed when its file was written, and is not here.';
  if (isRescoring(evaluation)) return 'A second round is under way; the record is sealed after it.';
  if (evaluation.lookOpen) return 'A second look is open; the record is sealed after it.';
  if (revealed.decision.nextSlotId !== null)
    return 'When every place is picked, the owner seals the record; what is sealed never changes.';
  const held = heldKeeps(evaluation, revealed.decision).map((slotId) => String(faces.place(slotId)));
  if (held.length > 0)
    return `A veterinary answer that came after the pick holds the puppy of ${held.length === 1 ? 'place' : 'places'} ${listWords(held)}. Take that pick back, or record an answer that clears it; then the record can be sealed.`;
  return 'Every place is picked. The owner seals the record.';
}
