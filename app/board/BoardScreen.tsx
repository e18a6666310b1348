'use client';

import type { EvaluationView } from '#lib/contract/evaluationView';
import { CautionNote } from '../_parts/CautionNote';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { AgendaSection } from './AgendaSection';
import { AgreementSection } from './AgreementSection';
import { AnonymousLine } from './AnonymousLine';
import { AsidesSection } from './AsidesSection';
import styles from './BoardScreen.module.css';
import { BoardWaiting } from './BoardWaiting';
import { ChecksSection } from './ChecksSection';
import { DiscussionSection } from './DiscussionSection';
import { EvaluationFrame } from './EvaluationFrame';
import { EvaluatorsSection } from './EvaluatorsSection';
import { facesOf } from './facesOf';
import { FactsSection } from './FactsSection';
import { MeritSection } from './MeritSection';
import { PlacesSection } from './PlacesSection';
import { SecondResult } from './SecondResult';
import { SecondRoundNotice } from './SecondRoundNotice';
import { SecondRoundOpening } from './SecondRoundOpening';
import { useRevealed } from './useRevealed';

/** What the panel found, from the reveal on; before it, what the board waits for. */
export function BoardScreen() {
  return (
    <EvaluationFrame here="board">
      {(evaluation) => (evaluation.revealed ? <Board evaluation={evaluation} /> : <BoardWaiting evaluation={evaluation} />)}
    </EvaluationFrame>
  );
}

function Board({ evaluation }: { readonly evaluation: EvaluationView }) {
  const asked = useRevealed(evaluation.id);
  if (asked.state === 'refused') return <Refusal error={asked.error} />;
  if (asked.state === 'waiting') return <Loading what="the board; the numbers are worked out once, which takes a moment" />;
  const { board } = asked.revealed;
  const faces = facesOf(evaluation);
  return (
    <>
      <SecondRoundNotice evaluation={evaluation} />
      {board.anonymous ? <AnonymousLine /> : null}
      <div className={styles.top}>
        <MeritSection board={board} faces={faces} />
        <div className={styles.side}>
          <AgendaSection evaluation={evaluation} board={board} faces={faces} />
          <SecondRoundOpening evaluation={evaluation} revealed={asked.revealed} faces={faces} />
          <PlacesSection evaluation={evaluation} revealed={asked.revealed} faces={faces} />
        </div>
        <DiscussionSection evaluation={evaluation} revealed={asked.revealed} faces={faces} />
      </div>
      <SecondResult board={board} faces={faces} />
      <AgreementSection evaluation={evaluation} board={board} faces={faces} />
      <ChecksSection evaluation={evaluation} board={board} faces={faces} />
      <div className={styles.beside}>
        <EvaluatorsSection evaluation={evaluation} board={board} faces={faces} />
        <AsidesSection evaluation={evaluation} board={board} faces={faces} />
      </div>
      <FactsSection evaluation={evaluation} board={board} faces={faces} />
      <CautionNote caution="early-days" />
    </>
  );
}
