import type { BoardView } from '#lib/contract/boardView';
import styles from './CardNotes.module.css';
import type { Faces } from './facesOf';

/** Notes that seats wrote on their cards while scoring, puppy by puppy. */
export function CardNotes({ board, faces }: { readonly board: BoardView; readonly faces: Faces }) {
  const puppies = [...new Set(board.notes.map(({ puppy }) => puppy))];
  return (
    <dl className={styles.notes}>
      {puppies.map((puppy) => (
        <div key={puppy} className={styles.puppy}>
          <dt>{faces.puppyName(puppy)}</dt>
          {board.notes
            .filter((note) => note.puppy === puppy)
            .map((note, at) => (
              <dd key={`${note.seat ?? at} ${note.criterion ?? ''}`} className={styles.note}>
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
