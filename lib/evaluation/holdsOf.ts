import type { Hold, HoldChoice, VeterinaryAnswer } from '../contract/decisionView';
import type { DomainErrorCode } from '../errors';
import type { Snapshot } from '../contract/snapshot';
import { invariant } from '../invariant';
import { type CheckKey, checkKeys } from '../sheet/check';
import { checkByKey } from '../sheet/checkCatalogue';
import { answerOf } from '../sheet/sheet';

type Recorded = VeterinaryAnswer & { readonly puppyId: string; readonly check: string };

/** Every hold of a revealed round (SA1), standing or cleared, in puppy and catalogue order, with the veterinary answers as they came. */
export function holdsOf(snapshot: Snapshot, recorded: readonly Recorded[]): Hold[] {
  return snapshot.puppies.flatMap((puppy) => {
    const showings = new Set(snapshot.showings.filter((one) => one.puppyId === puppy.id).map((one) => one.id));
    const answers = snapshot.answers.flatMap(({ subject, body }) => {
      const check = body.kind === 'check' ? checkKeys.find((key) => key === body.check) : undefined;
      return check && body.kind === 'check' && body.answer !== null && showings.has(subject)
        ? [{ check, answer: body.answer }]
        : [];
    });
    return heldChecks(answers).map((check): Hold => {
      const said = recorded
        .filter((one) => one.puppyId === puppy.id && one.check === check)
        .map(({ answer, by, at, choice }) => ({ answer, by, at, choice }));
      const words = answers
        .filter((one) => one.check === check)
        .map((one) => answerOf(check, one.answer)?.words ?? one.answer);
      return { puppyId: puppy.id, check, answers: [...new Set(words)], said, stands: holdStands(said) };
    });
  });
}

/** The newest answer decides: a hold falls where it was chosen as cleared, or came before there was a choice. */
function holdStands(said: readonly VeterinaryAnswer[]): boolean {
  const last = said.at(-1);
  return last === undefined || (last.choice !== null && last.choice.kind !== 'cleared');
}

/** What was chosen on a veterinary answer, in words that stand before or after the answer's own. */
export function choiceWords(choice: HoldChoice | null, dayWords: (day: string) => string = (day) => day): string {
  switch (choice?.kind) {
    case undefined:
      return 'recorded before a choice was asked for; it let the hold fall';
    case 'cleared':
      return 'cleared';
    case 'again':
      return `look again on ${dayWords(choice.on)}`;
    case 'stays':
      return 'the hold stays';
  }
}

/** A look ahead lies ahead: a day that is over everywhere on earth is refused. `at` in milliseconds. */
export function decideChoice(choice: HoldChoice, at: number): DomainErrorCode | null {
  return choice.kind === 'again' && Date.parse(`${choice.on}T00:00:00Z`) + dayAndAHalf <= at ? 'day-past' : null;
}

/** A calendar day ends last twelve hours west of Greenwich. */
const dayAndAHalf = 36 * 3_600_000;

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
