import Link from 'next/link';
import { lookOutcomeWords } from '../look/lookOutcomeWords';
import type { PlaceProps } from './PlaceCard';

/** Second looks at candidates of this place: how they came out, or that one is open. */
export function PlaceLooks({ slot, evaluation, revealed, faces }: PlaceProps) {
  const looks = revealed.looks.filter((look) => look.slotId === slot.slotId);
  if (looks.length === 0) return null;
  return (
    <>
      {looks.map((look) => (
        <p key={look.id}>
          {lookOutcomeWords(look, faces)} {look.state === 'revealed' ? null : <Link href={`/look?id=${evaluation.id}`}>{look.state === 'open' ? 'Answer it' : 'See it'}</Link>}
        </p>
      ))}
    </>
  );
}
