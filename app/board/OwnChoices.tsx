import { Disclosure } from './Disclosure';
import type { PlaceProps } from './PlaceCard';
import styles from './OwnChoices.module.css';

/** What each seat chose for this place before it locked, with its reason. Outside merit. */
export function OwnChoices({ slot, revealed, faces }: PlaceProps) {
  const choices = revealed.board.choices.filter((one) => one.slotId === slot.slotId);
  if (choices.length === 0) return null;
  return (
    <Disclosure words="What each seat chose">
      <ul className={styles.choices}>
        {choices.map((choice, at) => (
          <li key={choice.seat ?? at}>
            <b>{faces.seatLabel(choice.seat)}</b>: {choice.puppy === null ? 'none' : faces.puppyName(choice.puppy)}
            {choice.chance === null ? '' : `, holds it ${choice.chance} of 100 likely that this stands in twelve months`}
            {choice.reason === '' ? '.' : `. ${choice.reason}`}
          </li>
        ))}
      </ul>
    </Disclosure>
  );
}
