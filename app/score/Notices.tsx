'use client';

import type { ReactNode } from 'react';
import { counted } from '../_parts/textWords';
import styles from './score.module.css';
import { missingSteps, stepsOf } from './steps';
import type { Doubt } from './useDoubt';
import type { Scoring } from './useScoring';
import type { Shown } from './useShowing';
import type { StepWork } from './useStepWork';
import type { Undo } from './useUndo';
import { useWorkOrder, type WorkOrder } from './useWorkOrder';

type Props = {
  readonly scoring: Scoring;
  readonly shown: Shown;
  readonly work: StepWork;
  readonly undo: Undo;
  readonly doubt: Doubt;
  readonly onPause: () => void;
  readonly paused: boolean;
};

/** What wants to be known just now, above the keys and within reach of the thumb: one line, a press to be asked about, and the offer to undo. */
export function Notices(props: Props) {
  const { undo, doubt } = props;
  return (
    <div className={`stack gap-6 unless-empty ${styles.notices}`}>
      <Standing {...props} />
      {doubt.open ? <DoubtNotice doubt={doubt} open={doubt.open} /> : null}
      {undo.offer ? (
        <Notice tone="calm" action={{ words: 'Undo', press: undo.offer.undo }}>
          {undo.offer.words}
        </Notice>
      ) : null}
    </div>
  );
}

/** The weightiest of what stands just now. */
function Standing({ scoring, shown, work, onPause, paused }: Props) {
  const [order] = useWorkOrder();
  const { table, left } = shown;
  if (shown.puppy.withdrawn)
    return <Notice tone="note">{shown.puppy.name} has been withdrawn and counts no more.</Notice>;
  if (table !== null && table.showing.id !== shown.showing.id) {
    return (
      <Notice tone="note" action={{ words: 'Go there', press: () => shown.go(table.showing.id) }}>
        {table.puppy.name} is on the table now.
      </Notice>
    );
  }
  const open = left === null ? 0 : missingSteps(stepsOf(scoring, left.puppy), left.showing.id, scoring.answers).length;
  if (left !== null && open > 0) {
    return (
      <Notice
        tone="note"
        action={{ words: 'Go back', press: () => shown.go(left.showing.id) }}
        onClose={shown.forgetLeft}
      >
        {left.puppy.name}: {counted(open, 'question')} open.
      </Notice>
    );
  }
  const done = doneBefore({ scoring, shown, work }, order);
  if (done === null || paused) return null;
  return (
    <Notice tone="calm" onClose={onPause}>
      {done} done. A short break keeps the eye fresh{scoring.round.medium === 'table' ? ' and the puppies warm' : ''}.
    </Notice>
  );
}

/** What has just been finished after which a break is due: five puppies, or five questions across the litter; null elsewhere. */
function doneBefore(
  { scoring, shown, work }: Pick<Props, 'scoring' | 'shown' | 'work'>,
  order: WorkOrder,
): string | null {
  const due = (count: number) => count > 0 && count % 5 === 0;
  if (order === 'across' && scoring.round.medium === 'photographs') {
    return shown.index === 0 && due(work.index) ? `${counted(work.index, 'question')} across the litter` : null;
  }
  return work.index === 0 && due(shown.index) ? counted(shown.index, 'puppy', 'puppies') : null;
}

function DoubtNotice({ doubt, open }: { readonly doubt: Doubt; readonly open: NonNullable<Doubt['open']> }) {
  return (
    <div role="alert" className={`row gap-8 ${styles.notice} ${styles.note} ${styles.doubt}`}>
      <p>
        “{open.words}” came just as {open.brought.puppy.name} was put on the table. Whose is it?
      </p>
      {open.faces.map((face) => (
        <button key={face.showing.id} type="button" onClick={() => doubt.settle(face)}>
          For {face.puppy.name}
        </button>
      ))}
      <button type="button" onClick={() => doubt.settle(null)}>
        Nobody’s
      </button>
    </div>
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
    <div className={`row gap-8 ${styles.notice} ${styles[tone]}`}>
      <p>{children}</p>
      {action ? (
        <button type="button" onClick={action.press}>
          {action.words}
        </button>
      ) : null}
      {onClose ? (
        <button type="button" onClick={onClose} aria-label="Put this notice away">
          ×
        </button>
      ) : null}
    </div>
  );
}
