import type { SectionProps } from './AgreementSection';
import styles from './AsidesSection.module.css';
import { AsideTable } from './AsideTable';
import { CardNotes } from './CardNotes';
import { Disclosure } from './Disclosure';

/** Overall impressions and scores of the puppy standing by itself: beside merit, never in it. And the notes on the cards. */
export function AsidesSection(props: SectionProps) {
  const { board, faces } = props;
  const fields = [...new Set(board.asides.map(({ field }) => field))].sort((a, b) => Number(b === 'overall') - Number(a === 'overall'));
  if (fields.length === 0 && board.notes.length === 0) return null;
  return (
    <section aria-labelledby="asides" className={styles.section}>
      <h2 id="asides">Beside merit</h2>
      <p className={styles.intro}>Asked last and kept apart: none of this counts towards the order above.</p>
      {fields.map((field) => (
        <AsideTable key={field} field={field} {...props} />
      ))}
      {board.notes.length > 0 ? (
        <Disclosure words="Notes on the cards">
          <CardNotes board={board} faces={faces} />
        </Disclosure>
      ) : null}
    </section>
  );
}
