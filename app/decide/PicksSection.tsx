import type { EvaluationView } from '#lib/contract/evaluationView';
import { capital } from '../board/capital';
import type { Faces } from '../board/facesOf';
import { slotTerms } from '../board/slotTerms';
import type { Revealed } from '../board/useRevealed';
import { MadePick } from './MadePick';
import { PickForm } from './PickForm';
import styles from './PicksSection.module.css';
import { TakeBack } from './TakeBack';
import { waitingForWords } from './waitingForWords';

export type DecideProps = { readonly evaluation: EvaluationView; readonly revealed: Revealed; readonly faces: Faces };

/** Every place in order: made, up now, or still to come. */
export function PicksSection(props: DecideProps) {
  const { evaluation, revealed, faces } = props;
  const { decisions, nextSlotId } = revealed.decision;
  return (
    <section aria-labelledby="picks" className={styles.section}>
      <h2 id="picks">The pick order</h2>
      <p role="status">{waitingForWords(props)}</p>
      <ol className={styles.places}>
        {evaluation.slots.map((slot) => {
          const made = decisions.find((one) => one.slotId === slot.id);
          const up = slot.id === nextSlotId && evaluation.phase === 'deciding';
          return (
            <li key={slot.id}>
              <article aria-label={`Place ${faces.place(slot.id)}`} className={up ? styles.up : styles.place}>
                <h3>
                  Place {faces.place(slot.id)}: {slot.taker}
                </h3>
                <p className="small">{capital(slotTerms(slot))}</p>
                {made ? <MadePick decision={made} faces={faces} /> : null}
                {up ? <PickForm key={slot.id} slot={slot} {...props} /> : null}
                {!made && !up ? <p>Not picked{evaluation.phase === 'deciding' ? ' yet' : ''}.</p> : null}
              </article>
            </li>
          );
        })}
      </ol>
      <TakeBack {...props} />
    </section>
  );
}
