import type { DiscussionNote } from '#lib/contract/decisionView';
import { SeatShape } from '../_parts/SeatShape';
import type { Faces } from './facesOf';
import { momentWords } from './momentWords';
import styles from './NoteList.module.css';

/** What seats wrote after the reveal, oldest first. */
export function NoteList({ notes, faces }: { readonly notes: readonly DiscussionNote[]; readonly faces: Faces }) {
  if (notes.length === 0) return null;
  return (
    <ul className={styles.notes} aria-label="Notes">
      {notes.map((note) => (
        <li key={note.id} className={styles.note}>
          <p className="small">
            {note.seat === null ? null : <SeatShape position={faces.seat(note.seat)?.position ?? 0} size={14} />} <b>{faces.seatLabel(note.seat)}</b> · {momentWords(note.at)}
            {note.held ? ' · only you see it yet' : ''}
            {note.criterion === null ? '' : ` · ${faces.criterionName(note.criterion)}`}
            {note.puppyId === null ? '' : ` · ${faces.puppyName(note.puppyId)}`}
            {note.otherPuppyId === null ? '' : ` and ${faces.puppyName(note.otherPuppyId)}`}
          </p>
          <p className={styles.text}>{note.text}</p>
        </li>
      ))}
    </ul>
  );
}
