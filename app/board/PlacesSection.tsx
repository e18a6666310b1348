import Link from 'next/link';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Faces } from './facesOf';
import { openCloseCalls } from './openCloseCalls';
import { PlaceCard } from './PlaceCard';
import styles from './PlacesSection.module.css';
import type { Revealed } from './useRevealed';

type PlacesSectionProps = { readonly evaluation: EvaluationView; readonly revealed: Revealed; readonly faces: Faces };

/** The pick order place by place: who is likely, and where it is too close to call. */
export function PlacesSection({ evaluation, revealed, faces }: PlacesSectionProps) {
  const { slots } = revealed.board;
  const close = openCloseCalls(revealed).length;
  return (
    <section aria-labelledby="places" className={styles.section}>
      <h2 id="places">The pick order</h2>
      <p>{summary(slots.length, close)}</p>
      <ol className={styles.places}>
        {slots.map((slot) => (
          <li key={slot.slotId}>
            <PlaceCard slot={slot} evaluation={evaluation} revealed={revealed} faces={faces} />
          </li>
        ))}
      </ol>
      {slots.length > 0 ? <Link href={`/decide?id=${evaluation.id}`}>To the decision</Link> : null}
    </section>
  );
}

function summary(places: number, close: number): string {
  if (places === 0) return 'No place was set up: this evaluation compares the puppies, and nobody picks.';
  if (close === 0) return 'No open place is a close call.';
  return close === 1 ? 'One place is a close call: the scores alone do not settle it.' : `${close} places are close calls: the scores alone do not settle them.`;
}
