'use client';

import { registerOf } from '#lib/evaluation/outboxState';
import styles from './Answers.module.css';
import type { Scoring } from './useScoring';
import { useDraft } from './useDraft';

type Props = { readonly scoring: Scoring; readonly subject: string; readonly criterion: string | null; readonly label: string };

/** A note in one's own words, kept as one types. Nobody else reads it before the reveal. */
export function NoteForm({ scoring, subject, criterion, label }: Props) {
  const body = scoring.answers.get(registerOf(subject, criterion === null ? 'note' : `note:${criterion}`))?.body;
  const draft = useDraft(body?.kind === 'note' ? body.text : '', (text) => scoring.say(subject, { kind: 'note', criterion, text: text.trim() }));
  return (
    <label className={styles.line}>
      <span>{label}</span>
      <textarea maxLength={1000} value={draft.value} onChange={(event) => draft.type(event.target.value)} onBlur={draft.finish} />
    </label>
  );
}
