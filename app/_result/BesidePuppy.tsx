import type { Hold, VeterinaryAnswer } from '#lib/contract/decisionView';
import { checkNames } from '#lib/evaluation/checksMade';
import { choiceWords } from '#lib/evaluation/holdsOf';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import type { Faces } from '../_evaluation/facesOf';
import type { Revealed } from '../_evaluation/useRevealed';
import { capital } from '../_parts/textWords';
import { dayWords, momentWords } from '../_parts/timeWords';
import { behaviourWords } from './AddendumLines';
import { findingGroups, hasFinding } from './CheckFindings';
import styles from './_result.module.css';

/** What stands beside a puppy wherever it is picked or was picked, in words; empty where there is nothing. */
export type Beside = {
  /** Standing holds, said even where they do not bar a place. */
  readonly holds: string;
  /** Findings that hold nothing: of checks that never do. */
  readonly found: string;
  /** The veterinary answers that count, as they were written down and with what was chosen on them. */
  readonly answered: string;
  readonly unexamined: readonly string[];
  readonly behaviour: string;
};

type Shown = { readonly revealed: Pick<Revealed, 'board' | 'decision' | 'addenda'>; readonly faces: Faces };

export function besideOf(puppyId: string, { revealed, faces }: Shown): Beside {
  const { board, decision } = revealed;
  const holds = decision.holds.filter((hold) => hold.puppyId === puppyId);
  const found = board.checks.filter(
    ({ puppy, check, answers }) =>
      puppy === puppyId && checkByKey(check)?.holdsKeep === false && hasFinding(check, answers),
  );
  return {
    holds: holds
      .filter(({ stands }) => stands)
      .map(({ check, answers }) => `${checkNames([check])} (${answers.join('; ')})`)
      .join(', '),
    found: found
      .map(
        (line) =>
          `${checkNames([line.check])} (${findingGroups(line, faces)
            .map(({ words, seats }) => `${words}: ${seats.join(', ')}`)
            .join('; ')})`,
      )
      .join(', '),
    answered: holds.flatMap((hold) => answerThatCounts(hold) ?? []).join('; '),
    unexamined: decision.unexamined.find((one) => one.puppyId === puppyId)?.checks ?? [],
    behaviour: behaviourWords(revealed.addenda, puppyId),
  };
}

/** The newest answer to a hold in one line; null where nobody was asked. */
function answerThatCounts({ check, said }: Hold): string | null {
  const last = said.at(-1);
  const earlier =
    said.length > 1
      ? `; it supersedes ${said.length === 2 ? 'an earlier answer' : `${said.length - 1} earlier answers`}`
      : '';
  return last
    ? `${checkNames([check])}, ${choiceWords(last.choice, dayWords)}: “${last.answer}” (${last.by})${earlier}`
    : null;
}

export function BesideLines({
  beside: { holds, found, answered, unexamined, behaviour },
}: {
  readonly beside: Beside;
}) {
  return (
    <>
      {holds === '' ? null : (
        <span className={styles.beside}>A check asks for a veterinary answer that clears it: {holds}</span>
      )}
      {found === '' ? null : <span className={styles.beside}>Found, and holds nothing back: {found}</span>}
      {answered === '' ? null : <span className={styles.beside}>Veterinary answer: {answered}</span>}
      {unexamined.length === 0 ? null : (
        <span className={styles.beside}>Examined by nobody: {checkNames(unexamined)}</span>
      )}
      {behaviour === '' ? null : <span className={styles.said}>How it behaves, in no merit: {behaviour}</span>}
    </>
  );
}

/** Every answer to one hold, newest first: what counts, and what it superseded. */
export function AnswersToHold({ said }: { readonly said: readonly VeterinaryAnswer[] }) {
  return (
    <ul className="list stack gap-6" aria-label="Veterinary answers, newest first">
      {said.toReversed().map((one, at) => (
        <li key={`${one.at} ${said.length - at}`} className={at === 0 ? undefined : 'small'}>
          {at === 0 ? capital(choiceWords(one.choice, dayWords)) : `Superseded: ${choiceWords(one.choice, dayWords)}`}.{' '}
          <b className="asWritten">“{one.answer}”</b> ({one.by}, written down {momentWords(one.at)})
        </li>
      ))}
    </ul>
  );
}
