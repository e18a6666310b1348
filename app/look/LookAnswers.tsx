import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../_evaluation/facesOf';
import { SeatShape } from '../_parts/SeatShape';
import styles from './look.module.css';

/** Answers of a closed look, seat by seat, with the deciding criterion. */
export function LookAnswers({ look, faces }: { readonly look: LookView; readonly faces: Faces }) {
  const place = (seat: string | null) => faces.seat(seat)?.position ?? 0;
  const answers = (look.answers ?? []).toSorted((a, b) => place(a.seat) - place(b.seat));
  if (answers.length === 0) return null;
  return (
    <ul className={styles.answers}>
      {answers.map(({ seat, choice, criterion }, at) => (
        <li key={seat ?? at}>
          {seat === null ? null : <SeatShape position={place(seat)} size={16} />} {faces.seatLabel(seat)}:{' '}
          <b>{choice === 'tie' ? 'cannot separate them' : faces.puppyName(choice === 'first' ? look.firstPuppyId : look.secondPuppyId)}</b>
          {criterion === null ? '' : `, decided by ${faces.criterionName(criterion).toLowerCase()}`}
        </li>
      ))}
    </ul>
  );
}
