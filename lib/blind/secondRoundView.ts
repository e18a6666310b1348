import type { BoardView } from '../contract/boardView';
import type { Snapshot } from '../contract/snapshot';
import { panelFromSnapshot } from '../reconcile/panelFromSnapshot';
import { roundShift } from '../reconcile/roundShift';
import { roundShiftSentence } from '../reconcile/sentences/roundShiftSentence';

type Rounds = { readonly first: Snapshot; readonly second: Snapshot | null; readonly anonymous: boolean };

/** Before and after a second round, cell by cell; an anonymous panel is told counts, not whose voice it was. Null without one. */
export function secondRoundView({ first, second, anonymous }: Rounds): BoardView['second'] {
  if (!second) return null;
  const asked = (second.cells ?? []).map(({ puppyId, criterion }) => ({ puppy: puppyId, criterion }));
  const shift = roundShift(asked, panelFromSnapshot(first), panelFromSnapshot(second).scores);
  const names = Object.fromEntries(first.seats.map((seat) => [seat.id, anonymous ? 'one seat' : `the ${seat.label}`]));
  return {
    revealedAt: second.revealedAt,
    cells: shift.cells.map(({ puppy, criterion, seats, before, after, kind, voice }) => ({ puppy, criterion, seats, before, after, kind, voice: anonymous ? null : voice })),
    pulls: anonymous ? [] : shift.pulls.map(({ evaluator, pull }) => ({ seat: evaluator, pull: { ...pull } })),
    sentence: roundShiftSentence(shift, names),
  };
}
