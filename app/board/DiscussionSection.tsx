'use client';

import type { EvaluationView } from '#lib/contract/evaluationView';
import styles from './DiscussionSection.module.css';
import type { Faces } from './facesOf';
import { NoteAbout } from './NoteAbout';
import { NoteList } from './NoteList';
import { SpeakingQueue } from './SpeakingQueue';
import type { Revealed } from './useRevealed';

type DiscussionProps = { readonly evaluation: EvaluationView; readonly revealed: Revealed; readonly faces: Faces };

/** The talk after the reveal, live: who asks to speak, and notes on a puppy, a criterion or a pair. Notes on a place stand with the place. */
export function DiscussionSection({ evaluation, revealed, faces }: DiscussionProps) {
  const notes = revealed.notes.filter((note) => note.slotId === null);
  const seat = evaluation.seats.find((one) => one.id === evaluation.viewer.seatId);
  const talks = evaluation.phase === 'deciding';
  const mayTalk = talks && seat !== undefined && (seat.owner || seat.kind !== 'none' || seat.picks || seat.organises);
  if (!talks && notes.length === 0) return null;
  return (
    <section aria-labelledby="discussion" className={styles.section}>
      <h2 id="discussion">The talk</h2>
      {talks ? <SpeakingQueue evaluation={evaluation} faces={faces} mayAsk={mayTalk} /> : null}
      <NoteList notes={notes} faces={faces} />
      {notes.length === 0 ? <p className="small">No note on a puppy, a criterion or a pair yet.</p> : null}
      {mayTalk ? <NoteAbout evaluation={evaluation} /> : null}
    </section>
  );
}
