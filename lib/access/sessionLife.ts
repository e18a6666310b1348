const hour = 3_600_000;
const day = 24 * hour;

/** How long a session lives: without being used, and at all. A seat's is made for one occasion, the owner's for her desk. */
export const sessionLife = {
  seat: { idle: 12 * hour, whole: 36 * hour },
  owner: { idle: 30 * day, whole: 180 * day },
} as const;

export type SessionTimes = { readonly owner: boolean; readonly createdAt: number; readonly seenAt: number };

/** Whether a session's time is up. What its device had kept stays there; coming back is by approval or a seat issued again. */
export function sessionOver({ owner, createdAt, seenAt }: SessionTimes, now: number): boolean {
  const { idle, whole } = owner ? sessionLife.owner : sessionLife.seat;
  return now - Math.max(seenAt, createdAt) >= idle || now - createdAt >= whole;
}
