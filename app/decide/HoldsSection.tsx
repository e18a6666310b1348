'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { Hold, HoldChoice } from '#lib/contract/decisionView';
import { checkNames, noHoldSentence, unexaminedSentence } from '#lib/evaluation/checksMade';
import { readings } from '#lib/reconcile/sentences/readings';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { capital, listWords } from '../_parts/textWords';
import { AnswersToHold } from '../_result/BesidePuppy';
import type { DecideGround, DecideProps } from './Candidates';
import { HoldChoiceField } from './HoldChoiceField';
import styles from './decide.module.css';

/** Checks that hold a show or breeding keep, and the veterinary answers recorded on them. The tool gives no verdict. */
export function HoldsSection(props: DecideProps) {
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
          : 'A hold keeps a puppy out of a show or breeding keep until a veterinary surgeon was asked and you choose that the answer clears it. Nothing here reads what the answer says.'}
      </p>
      {open === null ? null : <p className={styles.hold}>{open} A pick for a show or breeding keep asks about them.</p>}
      {holds.map((hold) => (
        <article key={`${hold.puppyId} ${hold.check}`} className={hold.stands ? 'card edge-note' : 'card'}>
          <h3>{`${faces.puppyName(hold.puppyId)}: ${checkNames([hold.check])}`}</h3>
          <p>{capital(hold.answers.join('; '))}.</p>
          {checkByKey(hold.check)?.caution ? <p className="small">{checkByKey(hold.check)?.caution}</p> : null}
          {hold.said.length === 0 ? null : <AnswersToHold said={hold.said} />}
          {hold.stands ? (
            <p>
              <b>Holds a show or breeding keep.</b> {holdFallWords(hold, { ...props, evaluation }).join(' ')}
            </p>
          ) : null}
          {mayRecord ? (
            hold.said.length === 0 ? (
              <AnswerForm hold={hold} puppyName={faces.puppyName(hold.puppyId)} />
            ) : (
              <Disclosure words="A later answer">
                <AnswerForm hold={hold} puppyName={faces.puppyName(hold.puppyId)} />
              </Disclosure>
            )
          ) : null}
        </article>
      ))}
    </section>
  );
}

/** What changes if a standing hold falls: the places that open to its puppy, and how it stands against whoever is likeliest there now. */
function holdFallWords(hold: Hold, { evaluation, revealed, faces }: DecideGround): string[] {
  const puppy = faces.puppy(hold.puppyId);
  if (!puppy || puppy.withdrawn || !hold.stands) return [];
  const { decisions, holds } = revealed.decision;
  const name = puppy.name;
  if (decisions.some((one) => one.puppyId === puppy.id))
    return [`${name} is picked already, so nothing opens if it falls.`];
  const open = evaluation.slots.filter(
    (slot) =>
      slot.purpose === 'keep' &&
      (slot.sex === 'any' || slot.sex === puppy.sex) &&
      !decisions.some((one) => one.slotId === slot.id),
  );
  if (open.length === 0) return ['No open place waits on it.'];
  const places = `${open.length === 1 ? 'place' : 'places'} ${listWords(open.map((slot) => String(faces.place(slot.id))))}`;
  const others = holds.some((one) => one.puppyId === puppy.id && one.stands && one.check !== hold.check);
  if (others)
    return [`Another check holds ${name} too: ${places} opens to ${name} only when every one of them has fallen.`];
  return [
    `If it falls, ${places} ${open.length === 1 ? 'opens' : 'open'} to ${name}.`,
    ...open.slice(0, 1).flatMap((slot) => againstWords(slot.id, { id: puppy.id, name }, { revealed, faces })),
  ];
}

type Against = Pick<DecideProps, 'revealed' | 'faces'>;

function againstWords(
  slotId: string,
  { id, name }: { readonly id: string; readonly name: string },
  { revealed, faces }: Against,
): string[] {
  const likeliest = revealed.board.slots.find((one) => one.slotId === slotId)?.chances[0]?.puppy;
  const better = revealed.board.purposes.find(({ key }) => key === 'keep')?.better[id];
  const ahead = likeliest === undefined ? undefined : better?.[likeliest];
  if (likeliest === undefined || ahead === undefined) return [];
  const other = faces.puppyName(likeliest);
  return [
    `${other} is the likeliest for place ${faces.place(slotId)} now; ${name} is ahead of ${other} in ${readings(ahead)} of 100 readings. The chances are worked out anew when the answer is written down.`,
  ];
}

type AnswerProps = { readonly hold: Hold; readonly puppyName: string };

/** Writes down what a veterinary surgeon said, who, and what the owner chooses on it. Nothing is chosen beforehand. */
function AnswerForm({ hold, puppyName }: AnswerProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [answer, setAnswer] = useState('');
  const [by, setBy] = useState('');
  const [choice, setChoice] = useState<HoldChoice | null>(null);
  const record = useMutation(
    trpc.decision.answerHold.mutationOptions({
      onSuccess: () => {
        setAnswer('');
        setChoice(null);
        return queries.invalidateQueries();
      },
    }),
  );
  const ready =
    answer.trim() !== '' && by.trim() !== '' && choice !== null && (choice.kind !== 'again' || choice.on !== '');
  const about = `${puppyName}, ${checkNames([hold.check])}`;
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) record.mutate({ id: evaluation.id, puppyId: hold.puppyId, check: hold.check, answer, by, choice });
  };
  return (
    <form onSubmit={send} className={`stack topped gap-10 ${styles.form}`} aria-label={`Veterinary answer: ${about}`}>
      <FieldText label="What the veterinary surgeon said" value={answer} onChange={setAnswer} maxLength={300} />
      <FieldText label="Who said it" hint="Surgeon or practice, and when." value={by} onChange={setBy} maxLength={80} />
      <HoldChoiceField choice={choice} onChange={setChoice} />
      <div>
        <Button type="submit" busy={record.isPending} disabled={!ready}>
          Record a veterinary answer
        </Button>
      </div>
      <p className="small">
        The answer and your choice stay in the record as written. A later answer supersedes this one and stands beside
        it.
      </p>
      <Refusal error={record.error} />
    </form>
  );
}
