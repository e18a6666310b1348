'use client';

import type { ReactNode } from 'react';
import { counted } from '../_parts/counted';
import styles from './Notices.module.css';
import { missingSteps, stepsFor } from './steps';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import type { StepWork } from './useStepWork';
import type { Undo } from './useUndo';

type Props = { readonly scoring: Scoring; readonly shown: Shown; readonly work: StepWork; readonly undo: Undo; readonly onPause: () => void; readonly paused: boolean };

/** What wants to be known just now, above the keys and within reach of the thumb: one line, and the offer to undo. */
export function Notices(props: Props) {
  const { undo } = props;
  return (
    <div className={styles.notices}>
      <Standing {...props} />
      {undo.offer && (
        <Notice tone="calm" action={{ words: 'Undo', press: undo.offer.undo }}>
          {undo.offer.words}
        </Notice>
      )}
    </div>
  );
}

/** The weightiest of what stands just now. */
function Standing({ scoring, shown, work, onPause, paused }: Props) {
  const { table, left } = shown;
  if (shown.puppy.withdrawn) return <Notice tone="note">{shown.puppy.name} has been withdrawn and counts no more.</Notice>;
  if (table !== null && table.showing.id !== shown.showing.id) {
    return (
      <Notice tone="note" action={{ words: 'Go there', press: () => shown.go(table.showing.id) }}>
        Table is on {table.puppy.name}.
      </Notice>
    );
  }
  const open = left === null ? 0 : missingSteps(stepsFor(scoring.evaluation.sheet, scoring.seat.kind, left.puppy.sex), left.showing.id, scoring.answers).length;
  if (left !== null && open > 0) {
    return (
      <Notice tone="note" action={{ words: 'Go back', press: () => shown.go(left.showing.id) }} onClose={shown.forgetLeft}>
        {left.puppy.name}: {counted(open, 'question')} open.
      </Notice>
    );
  }
  if (shown.index === 0 || shown.index % 5 !== 0 || work.index > 0 || paused) return null;
  return (
    <Notice tone="calm" onClose={onPause}>
      {counted(shown.index, 'puppy', 'puppies')} done. A short break keeps the eye fresh and the puppies warm.
    </Notice>
  );
}

type NoticeProps = {
  readonly tone: 'calm' | 'note';
  readonly children: ReactNode;
  readonly action?: { readonly words: string; readonly press: () => void };
  readonly onClose?: () => void;
};

function Notice({ tone, children, action, onClose }: NoticeProps) {
  return (
    <div className={`${styles.notice} ${styles[tone]}`}>
      <p>{children}</p>
      {action && (
        <button type="button" onClick={action.press}>
          {action.words}
        </button>
      )}
      {onClose && (
        <button type="button" onClick={onClose} aria-label="Put this notice away">
          ×
        </button>
      )}
    </div>
  );
}
