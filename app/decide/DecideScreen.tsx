'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { type FormEvent, useState } from 'react';
import type { Hold } from '#lib/contract/decisionView';
import { readings } from '#lib/reconcile/sentences/readings';
import { noHoldSentence, unexaminedSentence } from '#lib/evaluation/checksMade';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { facesOf } from '../_evaluation/facesOf';
import { isRescoring } from '../_evaluation/isRescoring';
import { useRevealed } from '../_evaluation/useRevealed';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { Confirm } from '../_parts/Confirm';
import { EmptyState } from '../_parts/EmptyState';
import { FieldText } from '../_parts/FieldText';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { capital, listWords } from '../_parts/textWords';
import { momentWords } from '../_parts/timeWords';
import { SecondRoundNotice } from '../_result/SecondRoundNotice';
import type { DecideGround, DecideProps } from './Candidates';
import { PicksSection } from './PicksSection';
import styles from './decide.module.css';

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
          The record is sealed: nothing here changes any more. <Link href={`/record?id=${evaluation.id}`}>Read the record</Link>
        </p>
      ) : null}
      <SecondRoundNotice />
      <div className="beside">
        <PicksSection {...props} />
        <div className="stack gap-32">
          <HoldsSection {...props} />
          <SealSection {...props} />
          <CautionNote caution="worth" />
        </div>
      </div>
    </>
  );
}

/** Seals the record once every place is picked. */
function SealSection({ revealed }: DecideProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const seal = useMutation(trpc.decision.seal.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  if (evaluation.phase !== 'deciding') return null;
  return (
    <section aria-labelledby="seal" className="stack gap-12">
      <h2 id="seal">Seal the record</h2>
      {revealed.decision.maySeal && !isRescoring(evaluation) ? (
        <Confirm words="Seal the record" doIt="Seal it for good" busy={seal.isPending} onConfirm={() => seal.mutate({ id: evaluation.id })}>
          <p>
            After sealing, no pick can be made or taken back, no note or veterinary answer added, and no second look opened. The record can be read and
            printed. There is no unsealing.
          </p>
        </Confirm>
      ) : (
        <p>{isRescoring(evaluation) ? 'A second round is under way; the record is sealed after it.' : evaluation.lookOpen ? 'A second look is open; the record is sealed after it.' : revealed.decision.nextSlotId === null ? 'Every place is picked. The owner seals the record.' : 'When every place is picked, the owner seals the record; nothing changes after that.'}</p>
      )}
      <Refusal error={seal.error} />
    </section>
  );
}

/** Checks that hold a show or breeding keep, and the veterinary answers recorded on them. The tool gives no verdict. */
function HoldsSection(props: DecideProps) {
  const { revealed, faces } = props;
  const evaluation = useEvaluation();
  const { holds } = revealed.decision;
  const mayRecord = evaluation.viewer.owner && evaluation.phase === 'deciding';
  const open = unexaminedSentence(evaluation, revealed.board.checks);
  return (
    <section aria-labelledby="holds" className="stack gap-12">
      <h2 id="holds">Holds</h2>
      <p>
        {holds.length === 0
          ? noHoldSentence(evaluation, revealed.board.checks)
          : 'A hold keeps a puppy out of a show or breeding keep until a veterinary surgeon has been asked and the answer is written down. What the answer means for a pick is yours to judge; nothing here reads it.'}
      </p>
      {open === null ? null : <p className={styles.hold}>{open} A pick for a show or breeding keep asks about them.</p>}
      {holds.map((hold) => (
        <article key={`${hold.puppyId} ${hold.check}`} className={hold.cleared ? 'card' : 'card edge-note'}>
          <h3>{`${faces.puppyName(hold.puppyId)}: ${checkByKey(hold.check)?.name.toLowerCase() ?? hold.check}`}</h3>
          <p>{capital(hold.answers.join('; '))}.</p>
          {checkByKey(hold.check)?.caution ? <p className="small">{checkByKey(hold.check)?.caution}</p> : null}
          {hold.cleared ? (
            <p>
              Veterinary answer, {hold.cleared.by}, written down {momentWords(hold.cleared.at)}: <b>{hold.cleared.answer}</b>
            </p>
          ) : (
            <p>
              <b>Holds a show or breeding keep.</b> {holdFallWords(hold, { ...props, evaluation }).join(' ')}
            </p>
          )}
          {!hold.cleared && mayRecord ? <ClearHoldForm hold={hold} puppyName={faces.puppyName(hold.puppyId)} /> : null}
        </article>
      ))}
    </section>
  );
}

/** What changes if a standing hold falls: the places that open to its puppy, and how it stands against whoever is likeliest there now. */
function holdFallWords(hold: Hold, { evaluation, revealed, faces }: DecideGround): string[] {
  const puppy = faces.puppy(hold.puppyId);
  if (!puppy || puppy.withdrawn || hold.cleared !== null) return [];
  const { decisions, holds } = revealed.decision;
  const name = puppy.name;
  if (decisions.some((one) => one.puppyId === puppy.id)) return [`${name} is picked already, so nothing opens if it falls.`];
  const open = evaluation.slots.filter((slot) => slot.purpose === 'keep' && (slot.sex === 'any' || slot.sex === puppy.sex) && !decisions.some((one) => one.slotId === slot.id));
  if (open.length === 0) return ['No open place waits on it.'];
  const places = `${open.length === 1 ? 'place' : 'places'} ${listWords(open.map((slot) => String(faces.place(slot.id))))}`;
  const others = holds.some((one) => one.puppyId === puppy.id && one.cleared === null && one.check !== hold.check);
  if (others) return [`Another check holds ${name} too: ${places} opens to ${name} only when every one of them has fallen.`];
  return [`If it falls, ${places} ${open.length === 1 ? 'opens' : 'open'} to ${name}.`, ...open.slice(0, 1).flatMap((slot) => againstWords(slot.id, { id: puppy.id, name }, { revealed, faces }))];
}

type Against = Pick<DecideProps, 'revealed' | 'faces'>;

function againstWords(slotId: string, { id, name }: { readonly id: string; readonly name: string }, { revealed, faces }: Against): string[] {
  const likeliest = revealed.board.slots.find((one) => one.slotId === slotId)?.chances[0]?.puppy;
  const better = revealed.board.purposes.find(({ key }) => key === 'keep')?.better[id];
  const ahead = likeliest === undefined ? undefined : better?.[likeliest];
  if (likeliest === undefined || ahead === undefined) return [];
  const other = faces.puppyName(likeliest);
  return [`${other} is the likeliest for place ${faces.place(slotId)} now; ${name} is ahead of ${other} in ${readings(ahead)} of 100 readings. The chances are worked out anew when the answer is written down.`];
}

type ClearProps = { readonly hold: Hold; readonly puppyName: string };

/** Writes down what a veterinary surgeon said, and who. Whatever the words, the hold falls: the answer is for people to read. */
function ClearHoldForm({ hold, puppyName }: ClearProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [answer, setAnswer] = useState('');
  const [by, setBy] = useState('');
  const clear = useMutation(trpc.decision.clearHold.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const ready = answer.trim() !== '' && by.trim() !== '';
  const about = `${puppyName}, ${checkByKey(hold.check)?.name.toLowerCase() ?? hold.check}`;
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) clear.mutate({ id: evaluation.id, puppyId: hold.puppyId, check: hold.check, answer, by });
  };
  return (
    <form onSubmit={send} className={`stack topped gap-10 ${styles.form}`} aria-label={`Veterinary answer: ${about}`}>
      <FieldText label="What the veterinary surgeon said" value={answer} onChange={setAnswer} maxLength={300} />
      <FieldText label="Who said it" hint="Surgeon or practice, and when." value={by} onChange={setBy} maxLength={80} />
      <div>
        <Button type="submit" busy={clear.isPending} disabled={!ready}>
          Record a veterinary answer
        </Button>
      </div>
      <p className="small">The hold falls with any recorded answer, and the answer stays in the record as written.</p>
      <Refusal error={clear.error} />
    </form>
  );
}
