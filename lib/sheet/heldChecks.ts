import { answerOf } from './answerOf';
import { type CheckKey, checkKeys } from './check';
import { checkByKey } from './checkByKey';
import { invariant } from '../invariant';

export type GivenAnswer = { readonly check: CheckKey; readonly answer: string };

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
