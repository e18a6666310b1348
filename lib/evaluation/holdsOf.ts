import type { Hold } from '../contract/decisionView';
import type { Snapshot } from '../contract/snapshot';
import { invariant } from '../invariant';
import { type CheckKey, checkKeys } from '../sheet/check';
import { checkByKey } from '../sheet/checkCatalogue';
import { answerOf } from '../sheet/sheet';

type Clearance = { readonly puppyId: string; readonly check: string; readonly answer: string; readonly by: string; readonly at: number };

/** Every hold of a revealed round (SA1), standing or cleared, in puppy and catalogue order. */
export function holdsOf(snapshot: Snapshot, clearances: readonly Clearance[]): Hold[] {
  return snapshot.puppies.flatMap((puppy) => {
    const showings = new Set(snapshot.showings.filter((one) => one.puppyId === puppy.id).map((one) => one.id));
    const answers = snapshot.answers.flatMap(({ subject, body }) => {
      const check = body.kind === 'check' ? checkKeys.find((key) => key === body.check) : undefined;
      return check && body.kind === 'check' && body.answer !== null && showings.has(subject) ? [{ check, answer: body.answer }] : [];
    });
    return heldChecks(answers).map((check): Hold => {
      const cleared = clearances.find((one) => one.puppyId === puppy.id && one.check === check);
      const words = answers.filter((one) => one.check === check).map((one) => answerOf(check, one.answer)?.words ?? one.answer);
      return { puppyId: puppy.id, check, answers: [...new Set(words)], cleared: cleared ? { answer: cleared.answer, by: cleared.by, at: cleared.at } : null };
    });
  });
}

type GivenAnswer = { readonly check: CheckKey; readonly answer: string };

/**
 * Checks that hold one puppy's show or breeding keep (SA1), in catalogue order, each once.
 * One seat's watch or not normal is enough: the others may not have seen it. A hold says "ask a veterinary surgeon", no more.
 */
export function heldChecks(answers: readonly GivenAnswer[]): CheckKey[] {
  const held = new Set<CheckKey>();
  for (const { check, answer } of answers) {
    const found = answerOf(check, answer);
    invariant(found, `check ${check} has no answer ${answer}`);
    if (found.outcome === 'watch' || found.outcome === 'not-normal') held.add(check);
  }
  return checkKeys.filter((key) => held.has(key) && checkByKey(key)?.holdsKeep === true);
}
