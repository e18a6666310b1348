'use client';

import Link from 'next/link';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EvaluationFrame } from '../board/EvaluationFrame';
import { facesOf } from '../board/facesOf';
import { SecondRoundNotice } from '../board/SecondRoundNotice';
import { useRevealed } from '../board/useRevealed';
import { CautionNote } from '../_parts/CautionNote';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import styles from './DecideScreen.module.css';
import { HoldsSection } from './HoldsSection';
import { PicksSection } from './PicksSection';
import { SealSection } from './SealSection';

/** The pick order walked through, place by place; every seat sees it as it happens. */
export function DecideScreen() {
  return (
    <EvaluationFrame here="decision">
      {(evaluation) => (evaluation.revealed ? <Decision evaluation={evaluation} /> : <TooEarly />)}
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

function Decision({ evaluation }: { readonly evaluation: EvaluationView }) {
  const asked = useRevealed(evaluation.id);
  if (asked.state === 'refused') return <Refusal error={asked.error} />;
  if (asked.state === 'waiting') return <Loading what="the pick order" />;
  const props = { evaluation, revealed: asked.revealed, faces: facesOf(evaluation) };
  return (
    <>
      {evaluation.phase === 'sealed' ? (
        <p className={styles.sealed}>
          The record is sealed: nothing here changes any more. <Link href={`/record?id=${evaluation.id}`}>Read the record</Link>
        </p>
      ) : null}
      <SecondRoundNotice evaluation={evaluation} />
      <div className={styles.columns}>
        <PicksSection {...props} />
        <div className={styles.side}>
          <HoldsSection {...props} />
          <SealSection {...props} />
          <CautionNote caution="worth" />
        </div>
      </div>
    </>
  );
}
