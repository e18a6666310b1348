import type { BoardView } from '../contract/boardView';
import type { Hold } from '../contract/decisionView';
import type { Snapshot } from '../contract/snapshot';
import { checkKeys } from '../sheet/check';

type Cards = Pick<BoardView, 'checks' | 'asides' | 'notes' | 'choices' | 'unfair'>;

/** What the cards of a revealed round say beside the scores: checks, asides, notes, own choices, unfair days. */
export function snapshotCards(snapshot: Snapshot, holds: readonly Hold[]): Cards {
  const puppyOf = new Map(snapshot.showings.map((one) => [one.id, one.puppyId]));
  const asides: Cards['asides'] = [];
  const notes: Cards['notes'] = [];
  const choices: Cards['choices'] = [];
  const unfair: Cards['unfair'] = [];
  for (const { seatId: seat, subject, field, body } of snapshot.answers) {
    if (body.kind === 'choice')
      choices.push({ slotId: subject, seat, puppy: body.puppy, reason: body.reason, chance: body.chance });
    const puppy = puppyOf.get(subject);
    if (!puppy) continue;
    if (body.kind === 'overall' || body.kind === 'free') asides.push({ puppy, seat, field, value: body.value });
    if (body.kind === 'note' && body.text !== '')
      notes.push({ puppy, seat, criterion: body.criterion, text: body.text });
    if (body.kind === 'fair' && !body.fair) unfair.push({ puppy, seat, why: body.why });
  }
  return { checks: checkLines(snapshot, holds), asides, notes, choices, unfair };
}

function checkLines(snapshot: Snapshot, holds: readonly Hold[]): Cards['checks'] {
  return snapshot.puppies.flatMap((puppy) => {
    const showings = new Set(snapshot.showings.filter((one) => one.puppyId === puppy.id).map((one) => one.id));
    return checkKeys.flatMap((check) => {
      const answers = snapshot.answers.flatMap(({ seatId, subject, body }) =>
        body.kind === 'check' && body.check === check && body.answer !== null && showings.has(subject)
          ? [{ seat: seatId, answer: body.answer, detail: body.detail }]
          : [],
      );
      const holding = holds.some((hold) => hold.puppyId === puppy.id && hold.check === check && hold.stands);
      return answers.length > 0 ? [{ puppy: puppy.id, check, answers, holds: holding }] : [];
    });
  });
}
