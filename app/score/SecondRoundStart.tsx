import Link from 'next/link';
import { CollarChip } from '../_parts/CollarChip';
import { counted, listWords } from '../_parts/textWords';
import styles from './score.module.css';
import { stepsOf, stepTitle } from './steps';
import type { Scoring } from './useScoring';
import { faceOf } from './useShowing';

/** Before a second round: what is asked again, and that it is blind again. The first scores are not shown on this page. */
export function SecondRoundStart({ scoring }: { readonly scoring: Scoring }) {
  const { evaluation, round } = scoring;
  const asked = round.showings.flatMap(({ id }) => {
    const face = faceOf(scoring, id);
    const steps = face ? stepsOf(scoring, face.puppy) : [];
    return face && steps.length > 0 ? [{ ...face, steps }] : [];
  });
  const count = asked.reduce((sum, { steps }) => sum + steps.length, 0);
  return (
    <section className={`stack gap-18 ${styles.start}`} aria-label="Second round">
      <h2>Second round</h2>
      <div>
        <p>
          {count === 0
            ? 'Nothing that your seat can judge is asked again. Lock your card, so that the others need not wait for you.'
            : `${counted(count, 'question is', 'questions are')} asked again, chosen by the owner after the talk. Look afresh and score what you see now. You may stay where you were or move; either is an answer.`}
        </p>
        <p>
          It is blind again: nobody sees what you score before the reveal, and your first scores are not shown here.
          They stay beside the new ones on the board.
        </p>
      </div>
      <ul className={`list topped lined ${styles.asked}`} aria-label="Asked again">
        {asked.map(({ showing, puppy, steps }) => (
          <li key={showing.id}>
            <CollarChip collar={puppy.collar} words={false} size={20} /> <b>{puppy.name}</b>:{' '}
            {listWords(steps.map((step) => stepTitle(step).toLowerCase()))}
          </li>
        ))}
      </ul>
      <p>
        <Link href={`/board?id=${evaluation.id}`}>Back to the board</Link>
      </p>
    </section>
  );
}
