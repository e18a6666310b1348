import type { DemoRole } from '#lib/contract/demoView';

type SeatWords = { readonly role: DemoRole; readonly name: string; readonly place: string; readonly says: string };

/** The four seats, as one would describe them to somebody who is about to take one. */
export const seatWords: readonly SeatWords[] = [
  {
    role: 'breeder',
    name: 'the breeder',
    place: 'hands-on · owns the litter',
    says: 'You say which puppy is up, score like everybody else, lock before you may reveal, and decide at the end.',
  },
  {
    role: 'mentor',
    name: 'the mentor',
    place: 'live picture',
    says: 'You watch over a call. What takes a hand to judge is not asked of you.',
  },
  {
    role: 'photographer',
    name: 'the photographer',
    place: 'photographs only',
    says: 'You score from pictures, and say that you cannot judge where they do not show it.',
  },
  {
    role: 'co-owner',
    name: 'the co-owner',
    place: 'hands-on · second pick',
    says: 'You have hands on every puppy and a stake in the outcome, which the panel knows of.',
  },
];

/** "the mentor", for a sentence. */
export function seatName(role: DemoRole): string {
  return seatWords.find((one) => one.role === role)?.name ?? role;
}
