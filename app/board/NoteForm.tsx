'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState, type FormEvent } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldText } from '../_parts/FieldText';
import { holding } from '../_parts/isRescoring';
import { Refusal } from '../_parts/Refusal';
import styles from './NoteForm.module.css';

type NoteFormProps = {
  readonly evaluation: EvaluationView;
  readonly about: { readonly slotId: string | null; readonly puppyId: string | null; readonly otherPuppyId: string | null; readonly criterion: string | null };
  readonly label: string;
};

/** One more note. Its id is made before it is sent and kept until it has arrived, so that pressing again cannot double it (SC2). */
export function NoteForm({ evaluation, about, label }: NoteFormProps) {
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
    <form onSubmit={send} className={styles.form}>
      <FieldText label={label} value={text} onChange={type} kind="lines" maxLength={1000} hint={hintWords(evaluation)} />
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
  const when = open === null ? 'Every seat sees it' : `A ${open} is open: you alone see it until that is revealed, then every seat`;
  return evaluation.plan.discussion === 'anonymous' ? `${when}, without your seat’s name. Your way of writing may still be known.` : `${when}, with your seat’s name.`;
}
