'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { holding } from '../_evaluation/isRescoring';
import type { Revealed } from '../_evaluation/useRevealed';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { SeatShape } from '../_parts/SeatShape';
import { refusalDetails } from '../_data/refusalText';
import { NoteList } from '../_result/NoteList';
import styles from './board.module.css';

type DiscussionProps = { readonly revealed: Revealed; readonly faces: Faces };

/** The talk after the reveal, live: who asks to speak, and notes on a puppy, a criterion or a pair. Notes on a place stand with the place. */
export function DiscussionSection({ revealed, faces }: DiscussionProps) {
  const evaluation = useEvaluation();
  const notes = revealed.notes.filter((note) => note.slotId === null);
  const seat = evaluation.seats.find((one) => one.id === evaluation.viewer.seatId);
  const talks = evaluation.phase === 'deciding';
  const mayTalk = talks && seat !== undefined && (seat.owner || seat.kind !== 'none' || seat.picks || seat.organises);
  if (!talks && notes.length === 0) return null;
  return (
    <section aria-labelledby="discussion" className="stack gap-14">
      <h2 id="discussion">The talk</h2>
      {talks ? <SpeakingQueue faces={faces} mayAsk={mayTalk} /> : null}
      <NoteList notes={notes} faces={faces} />
      {notes.length === 0 ? <p className="small">No note on a puppy, a criterion or a pair yet.</p> : null}
      {mayTalk ? <NoteAbout /> : null}
    </section>
  );
}

type QueueProps = { readonly faces: Faces; readonly mayAsk: boolean };

/** Who asks to speak, the longest waiting first; whoever leads takes a hand down when its seat has spoken. */
function SpeakingQueue({ faces, mayAsk }: QueueProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const { data, error } = useQuery(trpc.board.hands.queryOptions({ id: evaluation.id }));
  const ask = useMutation(trpc.board.askToSpeak.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const { viewer } = evaluation;
  if (!data) return <Refusal error={error} />;
  const hands = data.waiting;
  const put = (seatId: string, up: boolean) => ask.mutate({ id: evaluation.id, seatId, up });
  const own = viewer.seatId;
  const up = own !== null && hands.includes(own);
  return (
    <div className="stack gap-10">
      <p role="status">{hands.length === 0 ? 'Nobody asks to speak.' : `Ask to speak, the longest waiting first:`}</p>
      {hands.length > 0 ? (
        <ol className={`list stack gap-6 ${styles.hands}`} aria-label="Who asks to speak">
          {hands.map((seatId, at) => (
            <li key={seatId}>
              <span className="figures">{at + 1}.</span>{' '}
              <SeatShape position={faces.seat(seatId)?.position ?? 0} size={16} /> <b>{faces.seatLabel(seatId)}</b>
              {seatId === own ? ' (you)' : ''}
              {(viewer.leads || viewer.owner) && seatId !== own ? (
                <Button
                  tone="quiet"
                  busy={ask.isPending}
                  aria-label={`${faces.seatLabel(seatId)} has spoken`}
                  onClick={() => put(seatId, false)}
                >
                  Has spoken
                </Button>
              ) : null}
            </li>
          ))}
        </ol>
      ) : null}
      {data.held ? (
        <p className="small">Your hand is up for you alone: the others see it once what is open is revealed.</p>
      ) : null}
      {mayAsk && own !== null ? (
        <div>
          <Button busy={ask.isPending} onClick={() => put(own, !up)}>
            {up ? 'I need not speak any more' : 'Ask to speak'}
          </Button>
        </div>
      ) : null}
      <Refusal
        error={ask.error}
        words={
          refusalDetails(ask.error)?.code === 'still-open'
            ? 'A hand that everybody has seen stays up until what is open is revealed.'
            : null
        }
      />
    </div>
  );
}

type NoteFormProps = {
  readonly about: {
    readonly slotId: string | null;
    readonly puppyId: string | null;
    readonly otherPuppyId: string | null;
    readonly criterion: string | null;
  };
  readonly label: string;
};

/** One more note. Its id is made before it is sent and kept until it has arrived, so that pressing again cannot double it (SC2). */
export function NoteForm({ about, label }: NoteFormProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [text, setText] = useState('');
  const [noteId, setNoteId] = useState(freshId);
  const add = useMutation(
    trpc.board.addNote.mutationOptions({
      onSuccess: () => {
        setText('');
        setNoteId(freshId());
        return queries.invalidateQueries();
      },
    }),
  );
  // Other words are another note: under the old id a repeat would keep the first text and drop these.
  const type = (typed: string) => {
    setText(typed);
    if (!add.isError) return;
    add.reset();
    setNoteId(freshId());
  };
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() !== '') add.mutate({ id: evaluation.id, noteId, ...about, text });
  };
  return (
    <form onSubmit={send} className={`stack gap-8 unprinted ${styles.form}`}>
      <FieldText
        label={label}
        value={text}
        onChange={type}
        kind="lines"
        maxLength={1000}
        hint={hintWords(evaluation)}
      />
      <div>
        <Button type="submit" busy={add.isPending} disabled={text.trim() === ''}>
          Add the note
        </Button>
      </div>
      <Refusal error={add.error} />
    </form>
  );
}

function hintWords(evaluation: EvaluationView): string {
  const open = holding(evaluation);
  const when =
    open === null
      ? 'Every seat sees it'
      : `A ${open} is open: you alone see it until that is revealed, then every seat`;
  return evaluation.plan.discussion === 'anonymous'
    ? `${when}, without your seat’s name. Your way of writing may still be known.`
    : `${when}, with your seat’s name.`;
}

/** A note on a puppy, on two of them, on a criterion, or on a puppy's criterion. */
function NoteAbout() {
  const evaluation = useEvaluation();
  const [puppy, setPuppy] = useState('');
  const [other, setOther] = useState('');
  const [criterion, setCriterion] = useState('');
  const puppies = evaluation.puppies.filter((one) => !one.withdrawn).map(({ id, name }) => ({ key: id, words: name }));
  const criteria = evaluation.sheet.criteria.map(({ key, name }) => ({ key, words: name }));
  const named = (id: string) => puppies.find(({ key }) => key === id)?.words ?? '';
  const pair = puppy !== '' && other !== '' && other !== puppy;
  const subject = [
    pair ? `${named(puppy)} and ${named(other)}` : named(puppy),
    criteria.find(({ key }) => key === criterion)?.words.toLowerCase() ?? '',
  ]
    .filter((part) => part !== '')
    .join(', ');
  return (
    <Disclosure words="Write a note">
      <div className="stack gap-14">
        <div className={`grid gap-12 ${styles.about}`}>
          <FieldChoice
            label="On puppy"
            value={puppy}
            options={[{ key: '', words: 'no puppy' }, ...puppies]}
            onChange={setPuppy}
          />
          <FieldChoice
            label="Beside"
            value={pair ? other : ''}
            disabled={puppy === ''}
            options={[{ key: '', words: 'no other' }, ...puppies.filter(({ key }) => key !== puppy)]}
            onChange={setOther}
          />
          <FieldChoice
            label="On criterion"
            value={criterion}
            options={[{ key: '', words: 'no criterion' }, ...criteria]}
            onChange={setCriterion}
          />
        </div>
        <NoteForm
          about={{
            slotId: null,
            puppyId: puppy === '' ? null : puppy,
            otherPuppyId: pair ? other : null,
            criterion: criterion === '' ? null : criterion,
          }}
          label={subject === '' ? 'Your note on the litter' : `Your note on ${subject}`}
        />
      </div>
    </Disclosure>
  );
}
