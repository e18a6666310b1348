import type { Plan } from '#lib/contract/plan';
import { counted } from '../_parts/counted';
import { countsOnlyCaution } from '../_parts/countsOnlyCaution';
import { mealWords } from '../_parts/mealWords';
import type { SetupView } from './setupDraft';

/** What was agreed on beforehand, a sentence each. */
export function planWords({ kind, learnerSeatId, discussion, identity, silentRepeat, hoursSinceMeal, lookBatches }: Plan, seats: SetupView['seats']): string[] {
  const learner = seats.find((seat) => seat.id === learnerSeatId)?.label ?? 'nobody yet';
  return [
    kind === 'panel' ? 'A panel, towards a decision.' : `A lesson: the cards of ${learner} beside those of the other seats, shown at the last of their locks.`,
    discussion === 'roles' ? 'After the reveal seats are named by their role.' : `After the reveal answers are counted and no seat is named. ${countsOnlyCaution}`,
    ...(identity === 'coded' ? ['From photographs, puppies are shown by a code of each seat’s own until the reveal.'] : []),
    silentRepeat ? 'One puppy comes a second time, drawn when the round opens.' : 'No puppy comes a second time.',
    hoursSinceMeal === null ? 'When the litter was last fed is not written down.' : `Last fed ${mealWords(hoursSinceMeal)} before.`,
    `Second looks: at most ${counted(lookBatches, 'batch', 'batches')} for one place.`,
  ];
}
