'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { counted } from '../_parts/textWords';
import { OpenLookTable } from './OpenLookTable';
import styles from './look.module.css';

type BatchProps = { readonly looks: readonly LookView[]; readonly faces: Faces };

/** The batch that is open: pair after pair, one's own private answers, and for whoever leads the close. Nothing of others. */
export function OpenBatch({ looks, faces }: BatchProps) {
  const evaluation = useEvaluation();
  const [at, setAt] = useState(() =>
    Math.max(
      0,
      looks.findIndex((look) => look.own === null),
    ),
  );
  const look = looks[at] ?? looks[0];
  if (!look) return null;
  const words = (one: LookView) => `${faces.puppyName(one.firstPuppyId)} and ${faces.puppyName(one.secondPuppyId)}`;
  const nextAt = looks.findIndex((one, index) => index !== at && one.own === null);
  const next = looks[nextAt];
  const open = looks.filter((one) => one.own === null).length;
  return (
    <>
      <section aria-labelledby="open-batch" className="stack gap-12">
        <h2 id="open-batch">Second looks for place {faces.place(look.slotId)}</h2>
        {looks.length > 1 ? (
          <ol className="list topped lined" aria-label="Pairs of this batch">
            {looks.map((one, index) => (
              <li key={one.id}>
                <button
                  type="button"
                  className={`whole-row between gap-12 ${styles.pairRow}`}
                  aria-current={index === at ? 'step' : undefined}
                  onClick={() => setAt(index)}
                >
                  <span>
                    {index + 1}. {words(one)}
                  </span>
                  {one.mayAnswer ? <span className="small">{one.own === null ? 'open' : 'answered'}</span> : null}
                </button>
              </li>
            ))}
          </ol>
        ) : null}
        {look.mayAnswer ? null : <p className="told roomy">{noAnswerWords(look, evaluation)}</p>}
      </section>
      <OpenLookTable
        key={look.id}
        look={look}
        faces={faces}
        next={next && next.mayAnswer ? { words: `Next pair: ${words(next)}`, go: () => setAt(nextAt) } : null}
      />
      {look.mayAnswer && looks.length > 1 && open === 0 ? (
        <p role="status" className="told roomy">
          You have answered all {counted(looks.length, 'pair')}. You can change an answer until the batch closes.
        </p>
      ) : null}
      <CloseLook looks={looks} />
    </>
  );
}

/** Why this viewer's seat does not answer a look. */
function noAnswerWords(look: LookView, { viewer, seats, slots }: EvaluationView): string {
  if (look.state === 'closed')
    return 'A backup was restored, and these looks came back closed: they may have been shown before. Nobody answers them any more.';
  const seat = seats.find((one) => one.id === viewer.seatId);
  const slot = slots.find((one) => one.id === look.slotId);
  if (!seat) return 'You have no seat at this panel, so you do not answer.';
  if (seat.kind === 'none') return 'Your seat does not score, so it does not answer.';
  if (seat.kind === 'photographs' && look.medium === 'table')
    return 'Your seat sees photographs only. A live look is answered by seats that see the table.';
  if (slot?.seatId === seat.id && seat.interest !== '') {
    return `You take this place and have declared an interest (${seat.interest}), so the others answer: nobody settles a close call for her own pick. You see their answers when the batch closes.`;
  }
  return 'Your seat does not answer this look.';
}

/** Whoever leads may close a batch before the last answer has come; her own answers first. */
function CloseLook({ looks }: { readonly looks: readonly LookView[] }) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const close = useMutation(trpc.look.close.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const [look] = looks;
  if (!evaluation.viewer.leads || !look) return null;
  const ownFirst = looks.some((one) => one.mayAnswer && one.own === null);
  const answers = looks.some((one) => one.mayAnswer);
  const one = looks.length === 1;
  const stopped = look.state === 'closed';
  const words = refusalDetails(close.error)?.code === 'own-card-open' ? 'Give your own answers first.' : null;
  return (
    <div className="stack topped gap-10 parted">
      <p className="small">
        {stopped
          ? 'Show the answers that are in the restored data; another look can be opened after.'
          : `${one ? 'The look' : 'The batch'} closes by itself with the last answer of the seats that ${look.medium === 'table' ? 'see the table' : 'may answer'}. ${
              answers
                ? 'Close it early if a seat has gone; answers given by then count, and the record says who was awaited.'
                : 'Your seat answers none of it, so you can close it only when nobody is awaited any more: when a seat has gone, the owner ends its session in the set-up.'
            }`}
        {ownFirst ? ' Before you can close it, give your own answers.' : ''}
      </p>
      <div>
        <Button
          busy={close.isPending}
          disabled={ownFirst}
          onClick={() => close.mutate({ id: evaluation.id, batchId: look.batchId })}
        >
          {stopped ? 'Show the answers' : `Close the ${one ? 'look' : 'batch'} now`}
        </Button>
      </div>
      <Refusal error={close.error} words={words} />
    </div>
  );
}
