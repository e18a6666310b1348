'use client';

import { useState } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import { closeCallThresholds } from '#lib/reconcile/slotResults';
import { Button } from '../_parts/Button';
import { Drawer } from '../_parts/Drawer';

/** How answers of a second look enter the numbers, for those who want to know. */
export function LookSettings({ board }: { readonly board: BoardView }) {
  const [open, setOpen] = useState(false);
  const { noise, tieHalfWidth } = board.lookSettings;
  return (
    <div>
      <Button onClick={() => setOpen(true)}>How a look is read</Button>
      {open ? (
        <Drawer title="How a second look is read" onClose={() => setOpen(false)}>
          <p>
            An answer is one more reading of how far two puppies lie apart for this place. It is folded into the scores: what a seat liked or disliked about a puppy
            while scoring, it is taken to like or dislike in the look as well, so that ten answers of one eye do not count as ten eyes.
          </p>
          <p>
            A single answer scatters with a standard deviation of <b className="figures">{noise.toFixed(2)}</b> points of this sheet’s scale. Below{' '}
            <b className="figures">{tieHalfWidth.toFixed(2)}</b> points a seat is taken to be unable to tell two puppies apart; “I cannot separate them” says just that, and counts.
          </p>
          <p>
            A place is settled when one puppy is the best of those eligible in {Math.round(100 * closeCallThresholds.closeBelow)} of 100 readings. When the agreed batches are used up before that, its candidates
            count as equal on structure. That is a result: what is left is a preference, and is recorded as one.
          </p>
          <p className="small figures">{`${board.looks.answers} answers are part of the numbers now.`}</p>
        </Drawer>
      ) : null}
    </div>
  );
}
