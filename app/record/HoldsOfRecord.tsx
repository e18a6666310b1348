import { checkByKey } from '#lib/sheet/checkByKey';
import { DataTable } from '../board/DataTable';
import { momentWords } from '../board/momentWords';
import { RecordSection } from './RecordSection';
import type { ResultProps } from './ResultOfRecord';

/** Holds, and the veterinary answers recorded on them word for word. */
export function HoldsOfRecord({ revealed, faces }: ResultProps) {
  const { holds } = revealed.decision;
  return (
    <RecordSection id="holds" title="Holds and veterinary answers">
      {holds.length === 0 ? (
        <p>No check held a puppy.</p>
      ) : (
        <DataTable
          caption="Holds on a show or breeding keep"
          heads={['Puppy', 'Check', 'What the seats found', 'Veterinary answer, as written down']}
          rows={holds.map((hold) => ({
            key: `${hold.puppyId} ${hold.check}`,
            head: faces.puppyName(hold.puppyId),
            cells: [
              checkByKey(hold.check)?.name ?? hold.check,
              hold.answers.join('; '),
              hold.cleared ? `${hold.cleared.answer} (${hold.cleared.by}, ${momentWords(hold.cleared.at)})` : 'none: the hold stands',
            ],
          }))}
        />
      )}
    </RecordSection>
  );
}
