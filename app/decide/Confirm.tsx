'use client';

import { useState, type ReactNode } from 'react';
import { Button } from '../_parts/Button';
import styles from './Confirm.module.css';

type ConfirmProps = {
  /** The button that asks. */
  readonly words: string;
  /** The button that does it. */
  readonly doIt: string;
  readonly busy: boolean;
  readonly onConfirm: () => void;
  /** What it does, shown before the second press. */
  readonly children: ReactNode;
};

/** Two presses for what is hard to undo: the first says what it does, the second does it. The harmless answer has the focus. */
export function Confirm({ words, doIt, busy, onConfirm, children }: ConfirmProps) {
  const [asking, setAsking] = useState(false);
  if (!asking) {
    return (
      <div>
        <Button onClick={() => setAsking(true)}>{words}</Button>
      </div>
    );
  }
  return (
    <div role="group" aria-label={words} className={styles.asking}>
      {children}
      <div className={styles.buttons}>
        <Button tone="stop" busy={busy} onClick={onConfirm}>
          {doIt}
        </Button>
        <Button disabled={busy} onClick={() => setAsking(false)} autoFocus>
          Not now
        </Button>
      </div>
    </div>
  );
}
