import type { Snapshot } from '#lib/contract/snapshot';
import type { Panel, PanelScore } from './panel';

/**
 * The panel a revealed round gives: scores in force of puppies that stayed, from first showings, without the cards a
 * seat marked "not a fair day". Cannot judge, and anything not answered, is simply absent.
 */
export function panelFromSnapshot(snapshot: Snapshot): Panel {
  const present = snapshot.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => puppy.id);
  const puppyOf = new Map(
    snapshot.showings.filter((one) => !one.repeat && present.includes(one.puppyId)).map((one) => [one.id, one.puppyId]),
  );
  const unfair = new Set(
    snapshot.answers
      .filter(({ body }) => body.kind === 'fair' && !body.fair)
      .map((answer) => `${answer.seatId} ${answer.subject}`),
  );
  const scores = snapshot.answers.flatMap(({ seatId, subject, body }): PanelScore[] => {
    const puppy = puppyOf.get(subject);
    if (!puppy || body.kind !== 'score' || body.value === null || unfair.has(`${seatId} ${subject}`)) return [];
    return [{ puppy, evaluator: seatId, criterion: body.criterion, value: body.value }];
  });
  return {
    scale: snapshot.sheet.scale,
    puppies: present,
    evaluators: snapshot.seats.filter((seat) => seat.kind !== 'none').map((seat) => seat.id),
    criteria: snapshot.sheet.criteria.map(({ key, twoSided }) => ({ key, twoSided })),
    scores,
  };
}
