import type { SlotSentences } from './slotSentences';
import styles from './PickOrder.module.css';

type PickOrderProps = { readonly places: readonly SlotSentences[]; /** Places whose words are not those the reader confirmed, from 0. */ readonly changed?: readonly number[] };

/** The whole pick order in plain words, place after place. */
export function PickOrder({ places, changed = [] }: PickOrderProps) {
  if (places.length === 0) return <p>No place is set up: nobody takes a puppy by this evaluation.</p>;
  return (
    <ol className={styles.places}>
      {places.map(({ lead, terms }, at) => (
        <li key={at} className={changed.includes(at) ? styles.changed : styles.place}>
          <p className={styles.lead}>{lead}</p>
          <ul>
            {terms.map((term) => (
              <li key={term}>{term}</li>
            ))}
          </ul>
          {changed.includes(at) ? <p className={styles.mark}>Changed since you confirmed.</p> : null}
        </li>
      ))}
    </ol>
  );
}
