import { seatKindWords } from '../_parts/seatKindWords';
import { DataTable } from '../board/DataTable';
import type { RecordProps } from './FactsOfRecord';
import { RecordSection } from './RecordSection';

const stateWords = { invited: 'never joined', joined: 'not locked', locked: 'locked' } as const;

/** Who sat at the panel, what each seat could see and touch, and its declared interest. */
export function PanelOfRecord({ evaluation }: RecordProps) {
  return (
    <RecordSection id="panel" title="Panel">
      <DataTable
        caption="Seats"
        heads={['Seat', 'Sees and touches', 'Declared interest', 'Card']}
        rows={evaluation.seats.map((seat) => ({
          key: seat.id,
          head: seat.owner ? `${seat.label} (owner)` : seat.label,
          cells: [seatKindWords[seat.kind], seat.interest === '' ? 'none declared' : seat.interest, seat.kind === 'none' ? 'does not score' : stateWords[seat.state]],
        }))}
      />
    </RecordSection>
  );
}
