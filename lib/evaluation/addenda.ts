import type { AddendumInput } from '../contract/addendum';
import type { DomainErrorCode } from '../errors';
import { checkByKey } from '../sheet/checkCatalogue';
import type { EvaluationFacts } from './facts';
import { decideChoice } from './holdsOf';
import { mayDecideNow } from './pickOrder';

/**
 * Whether this may be written beside the result now. How a puppy behaves is told to all at once, as a decision is, and goes
 * into what is sealed; whatever else comes after the seal stands under it. `at` in milliseconds.
 */
export function decideAddendum(facts: EvaluationFacts, input: AddendumInput, at: number): DomainErrorCode | null {
  const early = input.kind === 'behaviour' ? mayDecideNow(facts) : facts.phase === 'sealed' ? null : 'wrong-phase';
  if (early) return early;
  const known = input.puppyId === null || facts.puppies.some(({ id }) => id === input.puppyId);
  if (!known || (input.kind === 'veterinary' && !checkByKey(input.check))) return 'not-found';
  return input.kind === 'veterinary' ? decideChoice(input.choice, at) : null;
}
