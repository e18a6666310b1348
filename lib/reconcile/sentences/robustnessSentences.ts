import type { Robustness } from '../merit/robustness';
import type { ReversedCriterion, ScaleUse } from '../seats/scaleUse';
import { capitalised, listed, nameOf, readings, type Names } from './readings';

/** "Place 2: with all assumed spreads halved or doubled, Fern is the best of those eligible in 72 to 83 of 100 readings." */
export function priorsSentence({ slot, puppy, low, high }: Robustness['priors'][number], names: Names): string {
  const [least, most] = [readings(low), readings(high)];
  const range = least === most ? `${least} of 100 readings as well` : `${least} to ${most} of 100 readings`;
  return `${capitalised(nameOf(names, slot))}: with all assumed spreads halved or doubled, ${nameOf(names, puppy)} is the best of those eligible in ${range}.`;
}

/** "One more evaluator who scores all puppies on every criterion would settle place 2 in about 31 of 100 cases, one look by every seat at the two likeliest in about 12 (200 cases drawn)." */
export function settlingSentence(
  { slot, evaluator, look, cases }: Robustness['settling'][number],
  names: Names,
): string {
  const about = (share: number) => `about ${Math.round(100 * share)}`;
  return `One more evaluator who scores all puppies on every criterion would settle ${nameOf(names, slot)} in ${about(evaluator)} of 100 cases, one look by every seat at the two likeliest in ${about(look)} (${cases} cases drawn).`;
}

type Orders = Robustness['without'][number]['orders'];

/** What the order is without one seat: "Without the vet the order is Fern, Moss and Sorrel; place 2 would lean to Moss (55 of 100 readings)." */
export function withoutSentence(
  { evaluator, orders, slots }: Robustness['without'][number],
  now: { readonly orders: Orders; readonly slots: readonly { readonly slot: string; readonly puppy: string | null }[] },
  names: Names,
): string {
  const moved = orders.filter(({ purpose, puppies }) =>
    now.orders.some((one) => one.purpose === purpose && one.puppies.join() !== puppies.join()),
  );
  const several = orders.length > 1;
  const ordered = moved.map(
    ({ purpose, puppies }) =>
      `the order${several ? ` for ${nameOf(names, purpose)}` : ''} is ${listed(puppies.map((puppy) => nameOf(names, puppy)))}`,
  );
  const changed = slots.filter(
    ({ slot, puppy }) => puppy !== null && now.slots.some((one) => one.slot === slot && one.puppy !== puppy),
  );
  const leaning = changed.map(
    ({ slot, puppy, probability }) =>
      `${nameOf(names, slot)} would lean to ${nameOf(names, puppy ?? '')} (${readings(probability)} of 100 readings)`,
  );
  const told = [...ordered, ...leaning];
  return `${capitalised(`without ${nameOf(names, evaluator)}`)} ${told.length > 0 ? told.join('; ') : 'the order stays as it is'}.`;
}

/** "The vet gave the ears the other way round than the others, who agree, over 8 puppies: …": a question, for the scores alone cannot tell a mistake from another view. */
export function reversedSentence({ evaluator, criterion, puppies }: ReversedCriterion, names: Names): string {
  return `${capitalised(nameOf(names, evaluator))} ordered the ${puppies} puppies on ${nameOf(names, criterion)} against all the others, who agree among themselves: were the two ends of the scale taken for each other?`;
}

/** Told from here on, and below its inverse. */
const WIDE = 1.4;

/** "The mentor uses about 1.6 times as much of the scale as the seats of this panel do on average: a way of scoring, not carelessness." Null where it is near theirs or may be the same. */
export function scaleUseSentence({ evaluator, slope, low, high }: ScaleUse, names: Names): string | null {
  if ((slope < WIDE || low <= 1) && (slope > 1 / WIDE || high >= 1)) return null;
  return `${capitalised(nameOf(names, evaluator))} uses about ${slope.toFixed(1)} times as much of the scale as the seats of this panel do on average: a way of scoring, not carelessness.`;
}

/** What no interval holds: what every seat saw alike. */
export const sharedErrorSentence =
  'What all seats share, such as a puppy badly stacked or sleepy that day, is in no interval: more seats on the same day would not show it.';

/** What a reading is, where the word first stands. */
export const readingSentence = 'One reading is one way things may truly be that fits these scores.';
