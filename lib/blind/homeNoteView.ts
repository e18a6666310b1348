import type { Decision, Hold } from '../contract/decisionView';
import type { HomeNote } from '../contract/homeNote';
import { DomainError } from '../errors';
import type { EvaluationFacts } from '../evaluation/facts';
import { followUpDates } from '../evaluation/ages';
import { checkByKey } from '../sheet/checkCatalogue';

type Sealed = { readonly facts: EvaluationFacts; readonly decisions: readonly Decision[]; readonly holds: readonly Hold[] };

/** One puppy's note for its home, built field by field (BL2): no score, no seat, no other puppy. Throws not-found. */
export function homeNoteView({ facts, decisions, holds }: Sealed, puppyId: string): HomeNote {
  const puppy = facts.puppies.find((one) => one.id === puppyId);
  if (!puppy) throw new DomainError('not-found');
  const slotId = decisions.find((one) => one.puppyId === puppyId)?.slotId;
  return {
    litterName: facts.litter.name,
    breed: facts.litter.breed,
    puppy: { name: puppy.name, sex: puppy.sex, collar: puppy.collar, secondMark: puppy.secondMark },
    whelpedOn: facts.litter.whelpedOn,
    seenOn: facts.heldOn,
    purpose: facts.slots.find((slot) => slot.id === slotId)?.purpose ?? null,
    findings: holds
      .filter((hold) => hold.puppyId === puppyId)
      .map((hold) => ({ check: checkByKey(hold.check)?.name ?? hold.check, answers: [...hold.answers], answered: hold.cleared?.answer ?? null })),
    lookAgain: followUpDates(facts.litter.whelpedOn).map(({ key, day }) => ({ key, day })),
  };
}
