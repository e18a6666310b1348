'use client';

import { StatusPill } from '../_parts/StatusPill';
import { useWide } from '../_parts/useWide';
import { standingLine } from './linkWords';
import styles from './score.module.css';
import type { NextMove } from './useNextMove';
import type { Scoring } from './useScoring';

export type Drawn = 'list' | 'note' | 'table' | 'entries';

type Props = {
  readonly scoring: Scoring;
  readonly next: Pick<NextMove, 'words' | 'press' | 'busy'> & {
    /** False just after the press has come to mean something else. */ readonly settled: boolean;
  };
  /** True where nothing else is left to press: the keyboard goes on from here. */
  readonly takeFocus: boolean;
  readonly back: (() => void) | null;
  readonly noted: boolean;
  readonly draw: (drawer: Drawn) => void;
};

/** The two lowest lines: note, back and next; then where everything is, and the ways to the rest. */
export function ScoreFoot({ scoring, next, takeFocus, back, noted, draw }: Props) {
  const wide = useWide();
  const leads = scoring.evaluation.viewer.leads && scoring.round.medium === 'table';
  return (
    <div className="stack gap-4">
      <div className={`flex gap-8 ${styles.scoreFootSteps}`}>
        <button type="button" className="key" onClick={() => draw('note')}>
          {noted ? 'Noted' : 'Note'}
        </button>
        <button type="button" className="key" onClick={() => back?.()} disabled={back === null}>
          Back
        </button>
        <button
          key={String(takeFocus)}
          type="button"
          className={`key ${styles.go}`}
          onClick={next.press}
          disabled={next.busy}
          aria-disabled={next.settled ? undefined : true}
          autoFocus={takeFocus}
        >
          {next.words}
        </button>
      </div>
      <div className="row between gap-8 high">
        <Standing scoring={scoring} onPress={() => draw('entries')} />
        <span className={styles.ways}>
          {leads ? (
            <button type="button" onClick={() => draw('table')}>
              Table
            </button>
          ) : null}
          {!wide ? (
            <button type="button" onClick={() => draw('list')}>
              List
            </button>
          ) : null}
        </span>
      </div>
    </div>
  );
}

/** Where the person's entries are. Pressed, it tells more. */
export function Standing({ scoring, onPress }: { readonly scoring: Scoring; readonly onPress: () => void }) {
  const line = standingLine(scoring, useWide() ? 'computer' : 'phone');
  return (
    <button type="button" className={`bare ${styles.pill}`} onClick={onPress}>
      <StatusPill tone={line.tone}>
        <span>{line.words}</span>
        {line.link !== null ? <span className={styles.link}>{line.link}</span> : null}
      </StatusPill>
    </button>
  );
}
