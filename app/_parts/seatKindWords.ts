import type { SeatKind } from '#lib/contract/setup';

/** What a seat can see and touch. */
export const seatKindWords: Readonly<Record<SeatKind, string>> = {
  hands: 'hands-on',
  live: 'live picture',
  photographs: 'photographs only',
  none: 'not scoring',
};
