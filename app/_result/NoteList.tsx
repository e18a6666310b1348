import type { BoardView } from '#lib/contract/boardView';
import type { DiscussionNote } from '#lib/contract/decisionView';
import type { Faces } from '../_evaluation/facesOf';
import { SeatShape } from '../_parts/SeatShape';
import { momentWords } from '../_parts/timeWords';
import styles from './_result.module.css';

/** What seats wrote after the reveal, oldest first. */
export function NoteList({ notes, faces }: { readonly notes: readonly DiscussionNote[]; readonly faces: Faces }) {
  if (notes.length === 0) return null;
  return (
    <ul className="list stack gap-10" aria-label="Notes">
      {notes.map((note) => (
        <li key={note.id} className="quote">
          <p className="small">
            {note.seat === null ? null : <SeatShape position={faces.seat(note.seat)?.position ?? 0} size={14} />}{' '}
            <b>{faces.seatLabel(note.seat)}</b> · {momentWords(note.at)}
            {note.held ? ' · only you see it yet' : ''}
            {note.criterion === null ? '' : ` · ${faces.criterionName(note.criterion)}`}
            {note.puppyId === null ? '' : ` · ${faces.puppyName(note.puppyId)}`}
            {note.otherPuppyId === null ? '' : ` and ${faces.puppyName(note.otherPuppyId)}`}
          </p>
          <p className="asWritten">{note.text}</p>
        </li>
      ))}
    </ul>
  );
}

/** Notes that seats wrote on their cards while scoring, puppy by puppy. */
export function CardNotes({ board, faces }: { readonly board: BoardView; readonly faces: Faces }) {
  const puppies = [...new Set(board.notes.map(({ puppy }) => puppy))];
  return (
    <dl className="stack gap-12">
      {puppies.map((puppy) => (
        <div key={puppy} className={styles.puppy}>
          <dt>{faces.puppyName(puppy)}</dt>
          {board.notes
            .filter((note) => note.puppy === puppy)
            .map((note, at) => (
              <dd key={`${note.seat ?? at} ${note.criterion ?? ''}`} className="asWritten">
                <span className="small">
                  {faces.seatLabel(note.seat)}
                  {note.criterion === null ? '' : `, ${faces.criterionName(note.criterion)}`}:
                </span>{' '}
                {note.text}
              </dd>
            ))}
        </div>
      ))}
    </dl>
  );
}
