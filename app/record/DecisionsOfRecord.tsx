import { DataTable } from '../board/DataTable';
import { momentWords } from '../board/momentWords';
import { slotTerms } from '../board/slotTerms';
import { followedWords } from '../decide/followedWords';
import { RecordSection } from './RecordSection';
import type { ResultProps } from './ResultOfRecord';

/** Who chose what, why, and whether it followed the panel. */
export function DecisionsOfRecord({ evaluation, revealed, faces }: ResultProps) {
  return (
    <RecordSection id="decisions" title="Decisions">
      <DataTable
        caption="Picks in order"
        heads={['Place', 'For', 'Puppy', 'Picked by', 'Why', 'Beside the panel']}
        rows={evaluation.slots.map((slot) => {
          const made = revealed.decision.decisions.find((one) => one.slotId === slot.id);
          const head = `${faces.place(slot.id)}. ${slot.taker}`;
          if (!made) return { key: slot.id, head, cells: [slotTerms(slot), 'not picked', '', '', ''] };
          return {
            key: slot.id,
            head,
            cells: [slotTerms(slot), made.puppyId === null ? 'left empty' : faces.puppyName(made.puppyId), `${made.by}, ${momentWords(made.at)}`, made.reason === '' ? 'no reason written down' : made.reason, followedWords(made)],
          };
        })}
      />
    </RecordSection>
  );
}
