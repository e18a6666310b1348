import type { Robustness } from '../robustness';
import { capitalised, nameOf, readings, type Names } from './readings';

/** "With other assumptions about scores of littermates, none of them less likely, Fern would be the best of those eligible in 72 to 83 of 100 readings." */
export function priorsSentence({ puppy, low, high }: Robustness['priors'][number], names: Names): string {
  const [least, most] = [readings(low), readings(high)];
  const range = least === most ? `${least} of 100 readings as well` : `${least} to ${most} of 100 readings`;
  return `With all assumed spreads halved or doubled, ${nameOf(names, puppy)} is the best of those eligible in ${range}.`;
}

/** "One more evaluator would settle place 2 in about 31 of 100 cases, one more look by all seats at the two likeliest in about 12." */
export function settlingSentence({ slot, evaluator, look }: Robustness['settling'][number], names: Names): string {
  const about = (share: number) => `about ${Math.round(100 * share)}`;
  return `One more evaluator who scores all puppies would settle ${nameOf(names, slot)} in ${about(evaluator)} of 100 cases, one look by every seat at the two likeliest in ${about(look)}.`;
}

/** What the order is without one seat, told only where it changes the likeliest puppy of a place. Null where it changes none. */
export function withoutSentence({ evaluator, slots }: Robustness['without'][number], now: readonly { readonly slot: string; readonly puppy: string | null }[], names: Names): string | null {
  const changed = slots.filter(({ slot, puppy }) => puppy !== null && now.some((one) => one.slot === slot && one.puppy !== puppy));
  if (changed.length === 0) return null;
  const told = changed.map(({ slot, puppy, probability }) => `${nameOf(names, slot)} would lean to ${nameOf(names, puppy ?? '')} (${readings(probability)} of 100 readings)`);
  return `${capitalised(`without ${nameOf(names, evaluator)}`)}, ${told.join('; ')}.`;
}
