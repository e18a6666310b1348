'use client';

import Link from 'next/link';
import type { Hold } from '#lib/contract/decisionView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { checkState } from '#lib/evaluation/checksMade';
import { checkCatalogue } from '#lib/sheet/checkCatalogue';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { type Faces, facesOf } from '../_evaluation/facesOf';
import { type Revealed, useRevealed } from '../_evaluation/useRevealed';
import { CautionNote } from '../_parts/CautionNote';
import { DataTable } from '../_parts/DataTable';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { countsOnlyCaution, listWords } from '../_parts/textWords';
import { momentWords } from '../_parts/timeWords';
import { type AnswerGroup, answerGroups, CheckFindings } from '../_result/CheckFindings';
import { SecondRoundNotice } from '../_result/SecondRoundNotice';
import { dayLines } from '../_result/dayLines';
import { AgendaSection } from './AgendaSection';
import { AgreementSection, type SectionProps } from './AgreementSection';
import { AsidesSection } from './AsidesSection';
import { DiscussionSection } from './DiscussionSection';
import { EvaluatorsSection } from './EvaluatorsSection';
import { MeritSection } from './MeritSection';
import { openCloseCalls, PlaceCard } from './PlaceCard';
import { PromisedPart } from './PromisedPart';
import { SecondResult } from './SecondResult';
import { SecondRoundOpening } from './SecondRoundOpening';
import styles from './board.module.css';

/** What the panel found, from the reveal on; before it, what the board waits for. */
export function BoardScreen() {
  return (
    <EvaluationFrame here="board" beforeReveal={<BoardWaiting />}>
      <Board />
    </EvaluationFrame>
  );
}

function Board() {
  const evaluation = useEvaluation();
  const asked = useRevealed(evaluation.id);
  if (asked.state === 'refused') return <Refusal error={asked.error} />;
  if (asked.state === 'waiting')
    return <Loading what="the board; the numbers are worked out once, which takes a moment" />;
  const { board } = asked.revealed;
  const faces = facesOf(evaluation);
  return (
    <>
      <SecondRoundNotice />
      {board.anonymous ? <AnonymousLine /> : null}
      <div className={`beside ${styles.top}`}>
        <MeritSection board={board} faces={faces} />
        <div className={`stack gap-32 ${styles.side}`}>
          <AgendaSection board={board} faces={faces} />
          <SecondRoundOpening revealed={asked.revealed} faces={faces} />
          <PlacesSection revealed={asked.revealed} faces={faces} />
        </div>
        <DiscussionSection revealed={asked.revealed} faces={faces} />
      </div>
      <SecondResult board={board} faces={faces} />
      <AgreementSection board={board} faces={faces} />
      <ChecksSection board={board} holds={asked.revealed.decision.holds} faces={faces} />
      <div className="beside">
        <EvaluatorsSection board={board} faces={faces} />
        <AsidesSection board={board} faces={faces} />
      </div>
      <FactsSection board={board} faces={faces} />
      <CautionNote caution="early-days" />
    </>
  );
}

/** BL9: said at the head of every board that counts only. */
function AnonymousLine() {
  return (
    <p className={styles.line}>
      This panel agreed on counts only: no score, note or answer here names its seat. {countsOnlyCaution}
    </p>
  );
}

/** What the board waits for: who has yet to lock, and who reveals. No score and nothing made from one exists for anybody before. */
function BoardWaiting() {
  const evaluation = useEvaluation();
  return (
    <EmptyState title="The board opens at the reveal">
      <p>{waitingWords(evaluation)}</p>
      <p className="small">
        Until then it shows nothing to anybody, the owner included: every seat scores for itself, and nothing is worked
        out from several cards.
      </p>
      {evaluation.phase === 'scoring' ? <Link href={`/score?id=${evaluation.id}`}>To the scoring</Link> : null}
    </EmptyState>
  );
}

function waitingWords({ round, seats, viewer }: EvaluationView): string {
  if (!round) return 'Scoring has not begun.';
  if (round.state === 'closed')
    return viewer.owner
      ? 'The round is closed. You reveal it on the scoring page.'
      : 'The round is closed. The owner reveals it.';
  const open = seats.filter((seat) => seat.kind !== 'none' && seat.state !== 'locked').map((seat) => seat.label);
  return open.length === 0
    ? 'Every seat has locked its card. The owner closes and reveals the round.'
    : `Not locked yet: ${listWords(open)}.`;
}

/** What this result rests on: what it was blind to, what was unfair, late or unlocked, and the engine. Always shown. */
function FactsSection({ board, faces }: SectionProps) {
  const evaluation = useEvaluation();
  return (
    <section aria-labelledby="facts" className={`stack gap-10 ${styles.factsSectionSection}`}>
      <h2 id="facts">What this result rests on</h2>
      <h3>Blind to</h3>
      <ul className={`stack points gap-4 ${styles.lines}`}>
        {board.blindTo.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <PromisedPart board={board} faces={faces} />
      <h3>On the day</h3>
      <ul className={`stack points gap-4 ${styles.lines}`}>
        {dayLines(board, faces, evaluation.plan).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="small figures">
        Revealed {momentWords(board.revealedAt)} · engine version {board.engineVersion}
      </p>
    </section>
  );
}

type PlacesSectionProps = { readonly revealed: Revealed; readonly faces: Faces };

/** The pick order place by place: who is likely, and where it is too close to call. */
function PlacesSection({ revealed, faces }: PlacesSectionProps) {
  const evaluation = useEvaluation();
  const { slots } = revealed.board;
  const close = openCloseCalls(revealed).length;
  return (
    <section aria-labelledby="places" className="stack gap-12">
      <h2 id="places">The pick order</h2>
      <p>{summary(slots.length, close)}</p>
      <ol className="list stack gap-12">
        {slots.map((slot) => (
          <li key={slot.slotId}>
            <PlaceCard slot={slot} revealed={revealed} faces={faces} />
          </li>
        ))}
      </ol>
      {slots.length > 0 ? <Link href={`/decide?id=${evaluation.id}`}>To the decision</Link> : null}
    </section>
  );
}

function summary(places: number, close: number): string {
  if (places === 0) return 'No place was set up: this evaluation compares the puppies, and nobody picks.';
  if (close === 0) return 'No open place is a close call.';
  return close === 1
    ? 'One place is a close call: the scores alone do not settle it.'
    : `${close} places are close calls: the scores alone do not settle them.`;
}

/** Checks stand beside merit, never in it: what each seat found, in words, and what holds a keep. */
function ChecksSection({ board, holds, faces }: SectionProps & { readonly holds: readonly Hold[] }) {
  const evaluation = useEvaluation();
  const checks = checkCatalogue.filter(({ key }) => evaluation.sheet.checks.includes(key));
  if (checks.length === 0) return null;
  return (
    <section aria-labelledby="checks" className="stack gap-14">
      <h2 id="checks">Checks</h2>
      <CheckFindings board={board} holds={holds} faces={faces} />
      <DataTable
        caption="What the seats that examined found, puppy by puppy"
        heads={['Check', ...evaluation.puppies.map(({ name }) => name)]}
        rows={checks.map((check) => ({
          key: check.key,
          head: check.name,
          cells: evaluation.puppies.map((puppy) => {
            const line = board.checks.find((one) => one.puppy === puppy.id && one.check === check.key);
            const state = checkState(check.key, puppy.sex, line?.answers ?? []);
            if (state === 'not-examined') return <b key={puppy.id}>examined by nobody</b>;
            if (!line || state === 'does-not-apply')
              return (
                <span key={puppy.id} className="tone-soft">
                  does not apply
                </span>
              );
            return (
              <span key={puppy.id} className={`stack ${styles.cell}`}>
                {told(answerGroups(line, faces)).map(({ words, seats, usual }) => (
                  <span key={words} className={usual ? 'tone-soft' : 'bold'}>
                    {words}
                    {usual ? '' : ` (${seats.join(', ')})`}
                  </span>
                ))}
                {line.holds ? <b className="tone-note">holds a keep</b> : null}
              </span>
            );
          }),
        }))}
      />
      <CautionNote caution="not-veterinary" />
    </section>
  );
}

/** Who did not examine is left out where another seat did. */
function told(groups: readonly AnswerGroup[]): readonly AnswerGroup[] {
  const examined = groups.filter((group) => group.examined);
  return examined.length === 0 ? groups : examined;
}
