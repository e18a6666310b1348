import { readings } from '#lib/reconcile/sentences/readings';

type Gain = { readonly now: number; readonly gain: number; readonly pairs: number };

/** What a batch should bring, and that it may not: "… is right in 61 of 100 readings … about 4 of 100 more." */
export function lookGainWords({ now, gain, pairs }: Gain): string {
  const more = readings(gain);
  const brings = more === 'fewer than 1' ? 'hardly anything: fewer than 1 of 100 more' : `about ${more} of 100 more`;
  return `As things stand, the puppy that looks likeliest for this place is the right one in ${readings(now)} of 100 readings. Answers of every seat that may give one to ${pairs === 1 ? 'this pair' : `these ${pairs} pairs`} should on average bring ${brings}; one batch may bring more than that, or nothing.`;
}
