import { Disclosure } from './Disclosure';
import { NoteForm } from './NoteForm';
import { NoteList } from './NoteList';
import { openCloseCalls } from './openCloseCalls';
import type { PlaceProps } from './PlaceCard';

/** The talk about a close call: notes of every seat as they come, and room for one's own. */
export function PlaceNotes({ slot, evaluation, revealed, faces }: PlaceProps) {
  const notes = revealed.notes.filter((note) => note.slotId === slot.slotId);
  const place = faces.place(slot.slotId);
  const mayWrite = evaluation.phase === 'deciding' && evaluation.viewer.seatId !== null;
  return (
    <>
      <NoteList notes={notes} faces={faces} />
      {mayWrite ? (
        <Disclosure words={`Write a note on place ${place}`} open={openCloseCalls(revealed)[0]?.slotId === slot.slotId}>
          <NoteForm evaluation={evaluation} about={{ slotId: slot.slotId, puppyId: null, otherPuppyId: null, criterion: null }} label={`Your note on place ${place}`} />
        </Disclosure>
      ) : null}
    </>
  );
}
