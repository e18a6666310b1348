import type { SequenceOrder } from '#lib/photo/matchSequence';
import { shots, type ShotKey } from '#lib/photo/shot';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';
import styles from './Photos.module.css';

type Props = {
  readonly order: SequenceOrder;
  readonly views: readonly ShotKey[];
  readonly shots: readonly ShotKey[];
  readonly onPlan: (order: SequenceOrder, views: ShotKey[]) => void;
};

const orders = [
  { key: 'puppy by puppy', words: 'Puppy by puppy: every view of one, then the next' },
  { key: 'view by view', words: 'View by view: one view of every puppy, then the next view' },
] as const;

/** How the pictures were taken: the order, and which views. */
export function SequenceForm({ order, views, shots: wanted, onPlan }: Props) {
  return (
    <div className={styles.sequence}>
      <FieldChoice<SequenceOrder> label="They were taken" value={order} options={orders} onChange={(asked) => onPlan(asked, [...views])} />
      <details>
        <summary>Views taken, in this order: {views.map((view) => shots[view].name.toLowerCase()).join(', ')}</summary>
        <div className={styles.listForm}>
          {wanted.map((shot) => (
            <FieldTick
              key={shot}
              label={shots[shot].name}
              ticked={views.includes(shot)}
              onChange={(on) => onPlan(order, wanted.filter((key) => (key === shot ? on : views.includes(key))))}
            />
          ))}
        </div>
      </details>
    </div>
  );
}
