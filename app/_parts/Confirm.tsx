'use client';

import { useState, type ReactNode } from 'react';
import { Button } from './Button';

type ConfirmProps = {
  /** The button that asks. */
  readonly words: string;
  /** What of several it is about: read aloud after the words, not shown. */
  readonly about?: string;
  /** The button that does it. */
  readonly doIt: string;
  readonly busy: boolean;
  readonly tone?: 'plain' | 'quiet';
  readonly onConfirm: () => void;
  /** What it does, shown before the second press. */
  readonly children: ReactNode;
};

/** Two presses for what is hard to undo: the first says what it does, the second does it. The harmless answer has the focus. */
export function Confirm({ words, about = '', doIt, busy, tone = 'plain', onConfirm, children }: ConfirmProps) {
  const [asking, setAsking] = useState(false);
  if (!asking) {
    return (
      <div>
        <Button tone={tone} onClick={() => setAsking(true)}>
          {words}
          {about === '' ? null : <span className="aloud">: {about}</span>}
        </Button>
      </div>
    );
  }
  return (
    <div role="group" aria-label={words} className="key stack inset gap-12">
      {children}
      <div className="wrap gap-10">
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
