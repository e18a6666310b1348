'use client';

import { Button } from '../_parts/Button';
import styles from './Setup.module.css';

type QuietCardProps = { readonly note: string; readonly callNumber: string };

/** The quiet-table card on paper, to lie on the table: printing this page prints it and nothing else. */
export function QuietCard({ note, callNumber }: QuietCardProps) {
  return (
    <>
      <div>
        <Button disabled={note.trim() === ''} onClick={() => window.print()}>
          Print the card
        </Button>
      </div>
      <div className={styles.printCard} aria-hidden="true">
        <p className={styles.printTitle}>Quiet table</p>
        <p>{note}</p>
        {callNumber === '' ? null : <p>Call: {callNumber}</p>}
      </div>
    </>
  );
}
