import type { SectionProps } from './AgreementSection';
import styles from './AsidesSection.module.css';
import { CardNotes } from './CardNotes';
import { DataTable } from './DataTable';
import { Disclosure } from './Disclosure';
import { scoreWords } from './scoreWords';

/** Overall impressions and scores of the puppy standing by itself: beside merit, never in it. And the notes on the cards. */
export function AsidesSection({ evaluation, board, faces }: SectionProps) {
  const fields = [...new Set(board.asides.map(({ field }) => field))].sort((a, b) => Number(b === 'overall') - Number(a === 'overall'));
  if (fields.length === 0 && board.notes.length === 0) return null;
  const seats = evaluation.seats.filter((seat) => board.asides.some((one) => one.seat === seat.id));
  return (
    <section aria-labelledby="asides" className={styles.section}>
      <h2 id="asides">Beside merit</h2>
      <p className={styles.intro}>Asked last and kept apart: none of this counts towards the order above.</p>
      {fields.map((field) => {
        const key = field.startsWith('free:') ? field.slice('free:'.length) : null;
        const twoSided = key !== null && faces.criterion(key)?.twoSided === true;
        return (
          <DataTable
            key={field}
            figures
            caption={key === null ? 'Overall impression' : `${faces.criterionName(key)}, standing by itself`}
            heads={['Puppy', ...seats.map((seat) => seat.label)]}
            rows={evaluation.puppies.map((puppy) => ({
              key: puppy.id,
              head: puppy.name,
              cells: seats.map((seat) => {
                const found = board.asides.find((one) => one.field === field && one.puppy === puppy.id && one.seat === seat.id);
                return scoreWords({ twoSided }, found && { value: found.value, cannotJudge: found.value === null });
              }),
            }))}
          />
        );
      })}
      {board.notes.length > 0 ? (
        <Disclosure words="Notes on the cards">
          <CardNotes board={board} faces={faces} />
        </Disclosure>
      ) : null}
    </section>
  );
}
