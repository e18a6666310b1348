import { identicalSeats, type IdenticalSeats } from './identicalSeats';
import type { Panel } from '../panel/panel';
import { reversedCriteria, scaleUse, type ReversedCriterion, type ScaleUse } from './scaleUse';

/** What a panel may want to ask of how its seats scored. Of these merit allows for seats alike alone. */
export type SeatQuestions = {
  readonly identical: readonly IdenticalSeats[];
  readonly reversed: readonly ReversedCriterion[];
  readonly scaleUse: readonly ScaleUse[];
};

/** Of scores alone, the same for any order of rows; tens of milliseconds on a full sheet, so not for the server's own loop. */
export function seatQuestions(panel: Panel): SeatQuestions {
  const identical = identicalSeats(panel);
  // Seats who repeat one another go together more than by what they see, which a one-factor fit takes for wide use.
  return { identical, reversed: reversedCriteria(panel), scaleUse: identical.length > 0 ? [] : scaleUse(panel) };
}
