import type { EvaluationView } from '#lib/contract/evaluationView';
import { SeatShape } from '../_parts/SeatShape';
import { seatKindWords } from '../_parts/seatKindWords';
import styles from './SeatLegend.module.css';

/** Which shape stands for which seat. */
export function SeatLegend({ evaluation }: { readonly evaluation: EvaluationView }) {
  return (
    <ul className={styles.legend} aria-label="Seats and their shapes">
      {evaluation.seats
        .filter((seat) => seat.kind !== 'none')
        .map((seat) => (
          <li key={seat.id}>
            <SeatShape position={seat.position} label={seat.label} /> {seat.label}, {seatKindWords[seat.kind]}
          </li>
        ))}
    </ul>
  );
}
