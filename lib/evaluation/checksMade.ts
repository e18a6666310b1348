import type { Unexamined } from '../contract/decisionView';
import type { Sex } from '../contract/litter';
import type { Snapshot } from '../contract/snapshot';
import { type CheckKey, checkKeys } from '../sheet/check';
import { checkByKey } from '../sheet/checkCatalogue';

/**
 * What became of one check of one puppy over all seats. *found*: a seat found something to watch or not normal; *normal*: at
 * least one seat examined and none found anything; *does-not-apply*: it is not made on this puppy; *not-examined*: nobody
 * made it, whether seats said so or left it open.
 */
export type CheckState = 'found' | 'normal' | 'does-not-apply' | 'not-examined';

type Said = { readonly answer: string };

/** One seat that examined is enough to say that it was examined; "not examined" of the others takes nothing from that. */
export function checkState(check: string, sex: Sex, said: readonly Said[]): CheckState {
  const { answers = [], onlyIn } = checkByKey(check) ?? {};
  const outcomes = new Set(said.map(({ answer }) => answers.find(({ key }) => key === answer)?.outcome));
  if (outcomes.has('watch') || outcomes.has('not-normal')) return 'found';
  if (outcomes.has('normal')) return 'normal';
  // A bitch has no testicles to feel for, whatever was or was not answered; of a dog nobody may say that they do not apply.
  if (onlyIn !== undefined) return onlyIn === sex ? 'not-examined' : 'does-not-apply';
  return outcomes.has('does-not-apply') ? 'does-not-apply' : 'not-examined';
}

/** The answers to one check of one puppy, as a revealed round holds them. */
export type CheckLine = { readonly puppy: string; readonly check: string; readonly answers: readonly Said[] };

/** Checks of the sheet that nobody made on this puppy, in catalogue order; what has no line was not made either. */
export function unexaminedChecks(
  puppy: { readonly id: string; readonly sex: Sex },
  asked: readonly string[],
  lines: readonly CheckLine[],
): CheckKey[] {
  return checkKeys.filter(
    (check) => asked.includes(check) && checkState(check, puppy.sex, saidOf(lines, puppy.id, check)) === 'not-examined',
  );
}

function saidOf(lines: readonly CheckLine[], puppy: string, check: string): readonly Said[] {
  return lines.filter((line) => line.puppy === puppy && line.check === check).flatMap(({ answers }) => answers);
}

type ChecksOfPuppy = {
  /** Checks that found something to watch or not normal, with the words of those findings alone, each once. */
  readonly found: readonly { readonly check: CheckKey; readonly words: readonly string[] }[];
  readonly normal: readonly CheckKey[];
  readonly unexamined: readonly CheckKey[];
};

/**
 * All eleven checks of one puppy of a revealed round, in catalogue order, whether the sheet asked for them or not: what it did
 * not ask nobody made. Those that do not apply are left out.
 */
export function checksOfPuppy(
  snapshot: Pick<Snapshot, 'showings' | 'answers'>,
  puppy: { readonly id: string; readonly sex: Sex },
): ChecksOfPuppy {
  const said = saidIn(snapshot);
  const states = checkKeys.map((check) => ({ check, said: saidOf(said, puppy.id, check) }));
  const inState = (state: CheckState) => states.filter((one) => checkState(one.check, puppy.sex, one.said) === state);
  return {
    found: inState('found').map(({ check, said: answers }) => ({ check, words: findingWords(check, answers) })),
    normal: inState('normal').map(({ check }) => check),
    unexamined: inState('not-examined').map(({ check }) => check),
  };
}

function findingWords(check: CheckKey, said: readonly Said[]): string[] {
  const found = said.flatMap(
    ({ answer }) =>
      checkByKey(check)?.answers.filter(
        ({ key, outcome }) => key === answer && (outcome === 'watch' || outcome === 'not-normal'),
      ) ?? [],
  );
  return [...new Set(found.map(({ words }) => words))];
}

function saidIn({ showings, answers }: Pick<Snapshot, 'showings' | 'answers'>): CheckLine[] {
  const puppyAt = new Map(showings.map(({ id, puppyId }) => [id, puppyId]));
  return answers.flatMap(({ subject, body }): CheckLine[] => {
    const puppy = puppyAt.get(subject);
    return puppy !== undefined && body.kind === 'check' && body.answer !== null
      ? [{ puppy, check: body.check, answers: [{ answer: body.answer }] }]
      : [];
  });
}

/** What a home is told of the checks as a whole; each part is named beside it. */
export function homeChecksSentence({
  found,
  normal,
  unexamined,
}: {
  readonly found: number;
  readonly normal: number;
  readonly unexamined: number;
}): string {
  if (found + normal === 0)
    return 'None of the checks was made on the day, so nothing can be said of them. Ask for them at the first examination.';
  const open = unexamined === 0 ? '' : ' Not everything was examined; ask for the rest at the first examination.';
  if (found > 0) return `What was found stands below: show it to your veterinary surgeon.${open}`;
  return unexamined === 0
    ? 'Every check was made on the day and found nothing. A first examination is due all the same.'
    : `The checks that were made found nothing.${open}`;
}

/** For each puppy of a revealed round that stayed: the checks nobody made on it. Puppies of whom none is open are left out. */
export function unexaminedOf(snapshot: Pick<Snapshot, 'puppies' | 'showings' | 'sheet' | 'answers'>): Unexamined[] {
  const lines = saidIn(snapshot);
  const { puppies, sheet } = snapshot;
  return puppies
    .filter(({ withdrawn }) => !withdrawn)
    .map((puppy) => ({ puppyId: puppy.id, checks: unexaminedChecks(puppy, sheet.checks, lines) }))
    .filter(({ checks }) => checks.length > 0);
}

type Examined = {
  readonly sheet: { readonly checks: readonly string[] };
  readonly puppies: readonly {
    readonly id: string;
    readonly name: string;
    readonly sex: Sex;
    readonly withdrawn: boolean;
  }[];
};

/**
 * One sentence on what nobody examined, over the puppies that stayed and the checks their sheet asks for; null where
 * everything that applies was examined.
 */
export function unexaminedSentence({ sheet, puppies }: Examined, lines: readonly CheckLine[]): string | null {
  const staying = puppies
    .filter(({ withdrawn }) => !withdrawn)
    .map((puppy) => ({
      name: puppy.name,
      open: unexaminedChecks(puppy, sheet.checks, lines),
      all: unexaminedChecks(puppy, sheet.checks, []),
    }));
  const open = staying.filter((one) => one.open.length > 0);
  if (open.length === 0) return null;
  const untouched = open.filter((one) => one.open.length === one.all.length);
  if (untouched.length === staying.length && staying.length > 1)
    return 'Nobody examined anything: every check of every puppy is open.';
  const parts = open.map((one) => `${one.name}: ${untouched.includes(one) ? 'every check' : checkNames(one.open)}`);
  return `Examined by nobody: ${parts.join('; ')}.`;
}

/** That no check holds a puppy is said of the checks that were made alone. */
export function noHoldSentence({ sheet, puppies }: Examined, lines: readonly CheckLine[]): string {
  if (sheet.checks.length === 0) return 'The sheet asks for no check, so none can hold a puppy.';
  return unexaminedSentence({ sheet, puppies }, lines) === null
    ? 'No check on the sheet holds a puppy.'
    : 'No check that was made holds a puppy.';
}

/** Names of checks as they stand within a sentence: "bite, palate". */
export function checkNames(checks: readonly string[]): string {
  return checks.map((key) => checkByKey(key)?.name.toLowerCase() ?? key).join(', ');
}
