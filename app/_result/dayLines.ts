import type { BoardView } from '#lib/contract/boardView';
import type { PlanFace } from '#lib/contract/plan';
import type { Faces } from '../_evaluation/facesOf';
import { listWords } from '../_parts/textWords';
import { mealWords } from '../_parts/timeWords';

/** What happened on the day that a reader of the result should know, a sentence each. */
export function dayLines(
  { unfair, repeats, notLocked, lateEntries, looks, second }: BoardView,
  faces: Faces,
  { hoursSinceMeal }: Pick<PlanFace, 'hoursSinceMeal'>,
): string[] {
  const days = unfair.map(
    ({ puppy, seat, why }) =>
      `Not a fair day for ${faces.puppyName(puppy)}, says ${faces.seatLabel(seat)}${why === '' ? '' : `: ${why}`}. That card is left out of the result.`,
  );
  return [
    ...(hoursSinceMeal === null ? [] : [`The litter was last fed ${mealWords(hoursSinceMeal)} before.`]),
    ...repeats.map((repeat) => repeatWords(repeat, faces)),
    ...(days.length > 0 ? days : ['No seat called it an unfair day for any puppy.']),
    notLocked.length === 0
      ? `Every scoring seat locked its card${second ? ' in both rounds' : ''}.`
      : `Not locked when ${second ? 'a' : 'the'} round closed: ${listWords(notLocked.map((seat) => faces.seatLabel(seat)))}. Those scores stand as they were.`,
    lateWords(lateEntries),
    looks.answers === 0
      ? 'No second look is part of these numbers.'
      : `${looks.answers === 1 ? 'One answer to a second look is' : `${looks.answers} answers to second looks are`} part of these numbers.`,
  ];
}

function repeatWords(
  { puppy, seat, cells, alike, shift, difference }: BoardView['repeats'][number],
  faces: Faces,
): string {
  const lean =
    shift === null || Math.abs(shift) < 0.5
      ? ''
      : `, ${shift > 0 ? 'higher' : 'lower'} the second time by ${Math.abs(shift).toFixed(1)} on average`;
  return `Shown ${faces.puppyName(puppy)} twice, ${faces.seatLabel(seat)} gave ${alike} of ${cells} scores alike; a score moved by ${difference.toFixed(1)} on average${lean}.`;
}

function lateWords(late: number): string {
  if (late === 0) return 'No entry came in late.';
  return `${late === 1 ? 'One entry' : `${late} entries`} came in after a lock or after the close: kept, and not part of this result.`;
}
