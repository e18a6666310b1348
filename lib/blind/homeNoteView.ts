import type { Addendum } from '../contract/addendum';
import type { Decision, Hold } from '../contract/decisionView';
import type { PuppyView } from '../contract/litter';
import type { Snapshot } from '../contract/snapshot';
import type { HomeNote } from '../contract/homeNote';
import { DomainError } from '../errors';
import type { EvaluationFacts } from '../evaluation/facts';
import { followUpDates } from '../evaluation/ages';
import { checksOfPuppy } from '../evaluation/checksMade';
import { homeReading } from '../evaluation/homeReading';
import { checkByKey } from '../sheet/checkCatalogue';

type Sealed = {
  readonly facts: EvaluationFacts;
  /** Of the round in which checks were asked. */
  readonly snapshot: Snapshot;
  /** The same with second scores where given. */
  readonly scored: Snapshot;
  readonly decisions: readonly Decision[];
  readonly holds: readonly Hold[];
  readonly addenda: readonly Addendum[];
  readonly along: Pick<HomeNote, 'contact' | 'picture'>;
  readonly litter: { readonly puppies: readonly Pick<PuppyView, 'id' | 'chipDigits' | 'weights'>[] };
};

/** One puppy's note for its home, built field by field (BL2): no score, no seat, no other puppy. Throws not-found. */
export function homeNoteView(
  { facts, snapshot, decisions, holds, addenda, along, scored, litter }: Sealed,
  puppyId: string,
): HomeNote {
  const puppy = facts.puppies.find((one) => one.id === puppyId);
  if (!puppy) throw new DomainError('not-found');
  const { found, normal, unexamined } = checksOfPuppy(snapshot, puppy);
  const kept = litter.puppies.find(({ id }) => id === puppyId);
  const own = addenda.filter((one) => one.puppyId === puppyId);
  const slotId = decisions.find((one) => one.puppyId === puppyId)?.slotId;
  return {
    litterName: facts.litter.name,
    breed: facts.litter.breed,
    puppy: { name: puppy.name, sex: puppy.sex, collar: puppy.collar, secondMark: puppy.secondMark },
    whelpedOn: facts.litter.whelpedOn,
    seenOn: facts.heldOn,
    purpose: facts.slots.find((slot) => slot.id === slotId)?.purpose ?? null,
    chipDigits: kept?.chipDigits ?? '',
    weight: lastWeight(kept?.weights ?? [], facts.heldOn),
    findings: found.map(({ check, words }) => ({
      check: checkTitle(check),
      answers: [...words],
      said: (holds.find((hold) => hold.puppyId === puppyId && hold.check === check)?.said ?? []).map(
        ({ answer, at, choice }) => ({ answer, at, choice }),
      ),
    })),
    normal: normal.map(checkTitle),
    unexamined: unexamined.map(checkTitle),
    ...homeReading(scored, puppyId),
    contact: along.contact,
    picture: along.picture,
    behaviour: own.filter(({ kind }) => kind === 'behaviour').map(({ id, text, by, at }) => ({ id, text, by, at })),
    later: own
      .filter(({ kind }) => kind === 'veterinary' || kind === 'correction')
      .map(({ id, check, choice, text, at }) => ({
        id,
        check: check === null ? null : checkTitle(check),
        choice,
        text,
        at,
      })),
    lookAgain: followUpDates(facts.litter.whelpedOn).map(({ key, day }) => ({ key, day })),
  };
}

const checkTitle = (check: string): string => checkByKey(check)?.name ?? check;

/** The latest weighing up to a day; null when there is none. */
function lastWeight(weights: PuppyView['weights'], day: string): HomeNote['weight'] {
  const [last] = weights
    .filter(({ weighedOn }) => weighedOn <= day)
    .toSorted((a, b) => b.weighedOn.localeCompare(a.weighedOn));
  return last ? { day: last.weighedOn, grams: last.grams } : null;
}
