import type { Snapshot } from '#lib/contract/snapshot';
import type { PanelScore } from './panel';

/** Scores of the silent second showing of a puppy that stayed, without cards marked "not a fair day"; the panel itself holds the first. */
export function repeatsFromSnapshot(snapshot: Snapshot): PanelScore[] {
  const present = new Set(snapshot.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => puppy.id));
  const again = new Map(
    snapshot.showings
      .filter(({ repeat, puppyId }) => repeat && present.has(puppyId))
      .map(({ id, puppyId }) => [id, puppyId]),
  );
  const keyOf = (seatId: string, subject: string) => JSON.stringify([seatId, subject]);
  const unfair = new Set(
    snapshot.answers
      .filter(({ body }) => body.kind === 'fair' && !body.fair)
      .map(({ seatId, subject }) => keyOf(seatId, subject)),
  );
  return snapshot.answers.flatMap(({ seatId, subject, body }) => {
    const puppy = again.get(subject);
    if (puppy === undefined || body.kind !== 'score' || body.value === null || unfair.has(keyOf(seatId, subject)))
      return [];
    return [{ puppy, evaluator: seatId, criterion: body.criterion, value: body.value }];
  });
}
