import type { EvaluationView } from '#lib/contract/evaluationView';
import { capital } from '../board/capital';
import type { Faces } from '../board/facesOf';
import { slotTerms } from '../board/slotTerms';
import type { Revealed } from '../board/useRevealed';
import { ChanceList } from '../_parts/ChanceList';
import { chancesOf } from '../board/chancesOf';
import { Disclosure } from '../board/Disclosure';
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
                {!made && !up ? <PlaceToCome slotId={slot.id} {...props} /> : null}
              </article>
            </li>
          );
        })}
      </ol>
      <TakeBack {...props} />
    </section>
  );
}

/** A place that is not up yet: how it stands, each place before it counted as filled by its likeliest puppy. */
function PlaceToCome({ slotId, evaluation, revealed, faces }: DecideProps & { readonly slotId: string }) {
  const result = revealed.board.slots.find((one) => one.slotId === slotId);
  return (
    <>
      <p>Not picked{evaluation.phase === 'deciding' ? ' yet' : ''}.</p>
      {result && evaluation.phase === 'deciding' && result.chances.length > 0 ? (
        <Disclosure words="How it stands">
          <p>{result.sentence}</p>
          <ChanceList chances={chancesOf(result.chances, faces)} />
          <p className="small">Each place before it counts as filled by its pick, or until then by its likeliest puppy.</p>
        </Disclosure>
      ) : null}
    </>
  );
}
