import { insertAddendum, isAddendum } from '#db/queries/addenda';
import { addendumHashes } from '#db/queries/boundHashes';
import type { AddendumInput } from '#lib/contract/addendum';
import { decideAddendum } from '#lib/evaluation/addenda';
import { checkNames } from '#lib/evaluation/checksMade';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { choiceWords } from '#lib/evaluation/holdsOf';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { refuse, writeEvaluation } from '../write/writeEvaluation';

type New = {
  /** The same when it is asked again (SC2). */ readonly addendumId: string;
  readonly evaluationId: string;
  readonly input: AddendumInput;
};

/** Writes beside the result what the owner has to add, each on a line of its own that binds it; nothing that stood before changes. */
export function writeAddendum(runtime: Runtime, { addendumId, evaluationId, input }: New): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    if (isAddendum(runtime.db, addendumId)) return;
    refuse(decideAddendum(facts, input, at));
    insertAddendum(runtime.db, { id: addendumId, evaluationId, at, input });
    const bound = withBindings(lineWords(facts, input), [
      ['addendum', addendumHashes(runtime.db, evaluationId).at(-1) ?? ''],
    ]);
    note('owner', input.kind === 'behaviour' ? 'behaviour-noted' : 'addendum-written', bound);
    touchAll();
  });
}

const kindWords = { veterinary: 'a veterinary answer', correction: 'a correction', home: 'a home' } as const;

/** About whom and what; the words themselves stand in the addendum, so that no person's are in what can never change. */
function lineWords({ puppies }: EvaluationFacts, input: AddendumInput): string {
  const name = puppies.find(({ id }) => id === input.puppyId)?.name ?? 'no one puppy';
  if (input.kind === 'behaviour') return name;
  return input.kind === 'veterinary'
    ? `${kindWords.veterinary}, ${name}, ${checkNames([input.check])}: ${choiceWords(input.choice)}`
    : `${kindWords[input.kind]}, ${name}`;
}
