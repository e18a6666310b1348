'use client';

import { Button } from './Button';
import styles from './MoveButtons.module.css';

type MoveButtonsProps = {
  /** What is moved, for whoever hears the buttons: "Move Fern up". */
  readonly name: string;
  readonly first: boolean;
  readonly last: boolean;
  readonly onMove: (by: -1 | 1) => void;
};

/** Reordering by two buttons: nothing has to be dragged. */
export function MoveButtons({ name, first, last, onMove }: MoveButtonsProps) {
  return (
    <span className={styles.pair}>
      <Button tone="quiet" aria-label={`Move ${name} up`} disabled={first} onClick={() => onMove(-1)}>
        <Arrow turned={false} />
      </Button>
      <Button tone="quiet" aria-label={`Move ${name} down`} disabled={last} onClick={() => onMove(1)}>
        <Arrow turned />
      </Button>
    </span>
  );
}

function Arrow({ turned }: { readonly turned: boolean }) {
  return (
    <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true" className={turned ? styles.turned : undefined}>
      <path
        d="M9 15V3M4 8l5-5 5 5"
        fill="none"
        stroke="currentColor"
        strokeWidth="2"
        strokeLinecap="round"
        strokeLinejoin="round"
      />
    </svg>
  );
}

/** The list with the thing at `from` moved by `by` places; unchanged where that would leave the list. */
export function moved<Thing>(list: readonly Thing[], from: number, by: -1 | 1): readonly Thing[] {
  const [here, there] = [list[from], list[from + by]];
  if (here === undefined || there === undefined) return list;
  return list.map((thing, index) => (index === from ? there : index === from + by ? here : thing));
}
