'use client';

import type { RoundView } from './useScoring';
import { useWorkOrder } from './useWorkOrder';
import styles from './score.module.css';

const orders = [
  { key: 'puppies', words: 'Puppy by puppy', help: 'every question about one, then the next' },
  {
    key: 'across',
    words: 'One question across the litter',
    help: 'the same question about every puppy, then the next question',
  },
] as const;

/** From photographs one may work either way; at a table the puppy that is up decides. */
export function WorkOrderChoice({ round }: { readonly round: RoundView }) {
  const [order, choose] = useWorkOrder();
  if (round.medium !== 'photographs' || round.showings.length < 2) return null;
  return (
    <fieldset className={`stack gap-8 ${styles.orders}`}>
      <legend>Order of work</legend>
      {orders.map(({ key, words, help }) => (
        <label key={key} className={`key ticked row gap-12 ${styles.order}`}>
          <input type="radio" name="work-order" checked={order === key} onChange={() => choose(key)} />
          <span>
            {words}
            <span className="small">{help}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
