import { useEvaluation } from '../_evaluation/evaluationContext';
import { SeatShape } from '../_parts/SeatShape';
import styles from './score.module.css';
import type { RoundView } from './useScoring';

const words = { invited: 'not here yet', joined: 'at work', locked: 'locked' } as const;

/** Who has locked, never what. */
export function SeatStates({ round }: { readonly round: RoundView }) {
  const evaluation = useEvaluation();
  const scoring = evaluation.seats.filter((seat) => seat.kind !== 'none');
  return (
    <ul className={styles.seats} aria-label="Who has locked">
      {scoring.map((seat) => (
        <li key={seat.id}>
          <SeatShape position={seat.position} />
          <span>
            {seat.label}
            {seat.id === evaluation.viewer.seatId ? ' (you)' : ''}
          </span>
          <span>{round.state === 'open' || seat.state === 'locked' ? words[seat.state] : 'not locked'}</span>
        </li>
      ))}
    </ul>
  );
}
