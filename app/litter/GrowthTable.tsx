import { ageInDays } from '#lib/evaluation/ageInDays';
import type { LitterView } from '#lib/contract/litter';
import { CollarChip } from '../_parts/CollarChip';
import { counted } from '../_parts/counted';
import { dayWords } from '../_parts/dayWords';
import styles from './Litter.module.css';

/** Puppies down, days across, grams within. */
export function GrowthTable({ litter }: { readonly litter: LitterView }) {
  const days = [...new Set(litter.puppies.flatMap(({ weights }) => weights.map(({ weighedOn }) => weighedOn)))].sort();
  return (
    <div className={styles.scroll} role="region" aria-label="Weights in grams" tabIndex={0}>
      <table className={styles.plainTable}>
        <caption className="aloud">Weights in grams</caption>
        <thead>
          <tr>
            <th scope="col">Puppy</th>
            {days.map((day) => (
              <th key={day} scope="col" className={styles.figure}>
                {counted(ageInDays(litter.whelpedOn, day), 'day')}
                <span className={styles.under}>{dayWords(day)}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {litter.puppies.map((puppy) => (
            <tr key={puppy.id}>
              <th scope="row">
                <CollarChip collar={puppy.collar} words={false} /> {puppy.name}
              </th>
              {days.map((day) => (
                <td key={day} className={styles.figure}>
                  {puppy.weights.find((weight) => weight.weighedOn === day)?.grams ?? <span className="aloud">not weighed</span>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
