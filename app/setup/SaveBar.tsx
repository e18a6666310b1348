'use client';

import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import styles from './Setup.module.css';

type SaveBarProps = {
  readonly unsaved: boolean;
  readonly saving: boolean;
  readonly saved: boolean;
  readonly faulty: boolean;
  readonly error: unknown;
  readonly onSave: () => void;
};

const fieldWords: Readonly<Record<string, string>> = {
  slots: 'A place in the pick order names a seat that may not pick. Choose another seat there, or let that seat pick.',
  purposes: 'The purposes do not fit: each needs a weight on at least one criterion, and every place in the pick order needs a purpose that is chosen.',
  plan: 'A lesson needs the seat that learns, and that seat has to score.',
  order: 'The litter has changed meanwhile. Your order of showing does not name its puppies.',
};

/** Stays in sight: whether what is typed is on the server, and the way to get it there. */
export function SaveBar({ unsaved, saving, saved, faulty, error, onSave }: SaveBarProps) {
  const field = refusalDetails(error)?.details.field;
  return (
    <div className={styles.saveBar}>
      <Refusal error={error} words={typeof field === 'string' ? (fieldWords[field] ?? null) : null} />
      <div className={styles.saveLine}>
        <p role="status">
          {faulty ? 'Something above needs a second look first. ' : ''}
          {unsaved ? 'Not saved yet.' : saved ? 'Saved.' : 'Nothing changed.'}
        </p>
        <Button tone="main" busy={saving} disabled={!unsaved} onClick={onSave}>
          Save the set-up
        </Button>
      </div>
    </div>
  );
}
