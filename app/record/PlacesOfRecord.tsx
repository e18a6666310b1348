import { NoteList } from '../_result/NoteList';
import { slotWords } from '../_result/slotWords';
import { LookAnswers } from '../look/LookAnswers';
import { lookOutcomeWords } from '../look/lookOutcomeWords';
import styles from './record.module.css';
import { RecordSection } from './RecordSection';
import type { ResultProps } from './ResultOfRecord';

/** The pick order as the scores saw it: close calls, what was said about them, and the second looks. */
export function PlacesOfRecord({ evaluation, revealed, faces }: ResultProps) {
  const { board, looks, notes } = revealed;
  return (
    <RecordSection id="places" title="Close calls and second looks">
      {board.slots.length === 0 ? <p>No place was set up.</p> : null}
      {board.slots.map((slot) => {
        const place = evaluation.slots.find((one) => one.id === slot.slotId);
        return (
          <div key={slot.slotId} className={styles.place}>
            <h3>
              Place {faces.place(slot.slotId)}
              {slot.close ? ', a close call' : ''}
            </h3>
            {place ? <p className="small">{slotWords(place)}</p> : null}
            <p>{slot.sentence}</p>
            <NoteList notes={notes.filter((note) => note.slotId === slot.slotId)} faces={faces} />
            {looks
              .filter((look) => look.slotId === slot.slotId)
              .map((look) => (
                <div key={look.id}>
                  <p>{lookOutcomeWords(look, faces)}</p>
                  <LookAnswers look={look} faces={faces} />
                </div>
              ))}
          </div>
        );
      })}
      <NoteList notes={notes.filter((note) => note.slotId === null)} faces={faces} />
    </RecordSection>
  );
}
