import type { Snapshot } from '../contract/snapshot';
import type { PanelScore } from './panel';

/** Scores of the silent second showing of a puppy that stayed; the panel itself holds the first. */
export function repeatsFromSnapshot(snapshot: Snapshot): PanelScore[] {
  const present = new Set(snapshot.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => puppy.id));
  const again = new Map(snapshot.showings.filter(({ repeat, puppyId }) => repeat && present.has(puppyId)).map(({ id, puppyId }) => [id, puppyId]));
  return snapshot.answers.flatMap(({ seatId, subject, body }) => {
    const puppy = again.get(subject);
    return puppy !== undefined && body.kind === 'score' && body.value !== null ? [{ puppy, evaluator: seatId, criterion: body.criterion, value: body.value }] : [];
  });
}
