import type { Sex } from '../contract/litter';
import { type CheckKey, checkKeys } from '../sheet/check';
import { checkByKey } from '../sheet/checkCatalogue';
import { answerOf } from '../sheet/sheet';

/**
 * What became of one check of one puppy over all seats. *found*: a seat found something to watch or not normal; *normal*: at
 * least one seat examined and none found anything; *does-not-apply*: it is not made on this puppy; *not-examined*: nobody
 * made it, whether seats said so or left it open.
 */
export type CheckState = 'found' | 'normal' | 'does-not-apply' | 'not-examined';

type Said = { readonly answer: string };

/** One seat that examined is enough to say that it was examined; "not examined" of the others takes nothing from that. */
export function checkState(check: CheckKey, sex: Sex, said: readonly Said[]): CheckState {
  const outcomes = new Set(said.map(({ answer }) => answerOf(check, answer)?.outcome));
  if (outcomes.has('watch') || outcomes.has('not-normal')) return 'found';
  if (outcomes.has('normal')) return 'normal';
  const { onlyIn } = checkByKey(check) ?? {};
  // A bitch has no testicles to feel for, whatever was or was not answered; of a dog nobody may say that they do not apply.
  if (onlyIn !== undefined) return onlyIn === sex ? 'not-examined' : 'does-not-apply';
  return outcomes.has('does-not-apply') ? 'does-not-apply' : 'not-examined';
}

/** The answers to one check of one puppy, as a revealed round holds them. */
export type CheckLine = { readonly puppy: string; readonly check: string; readonly answers: readonly Said[] };

/** Checks of the sheet that nobody made on this puppy, in catalogue order; what has no line was not made either. */
export function checksOpen(puppy: { readonly id: string; readonly sex: Sex }, asked: readonly string[], lines: readonly CheckLine[]): CheckKey[] {
  return checkKeys.filter((check) => asked.includes(check) && checkState(check, puppy.sex, saidOf(lines, puppy.id, check)) === 'not-examined');
}

export function saidOf(lines: readonly CheckLine[], puppy: string, check: string): readonly Said[] {
  return lines.find((line) => line.puppy === puppy && line.check === check)?.answers ?? [];
}

type OpenChecks = { readonly name: string; readonly open: readonly CheckKey[] };

/**
 * One sentence on what nobody examined, over some puppies and the checks that were asked of them; null where everything that
 * applies was examined.
 */
export function openChecksSentence(puppies: readonly OpenChecks[], asked: number): string | null {
  const open = puppies.filter((puppy) => puppy.open.length > 0);
  if (open.length === 0) return null;
  const every = (one: OpenChecks) => one.open.length === asked && asked > 1;
  if (puppies.length > 1 && open.length === puppies.length && open.every(every)) return 'Nobody examined anything: every check of every puppy is open.';
  const parts = open.map((one) => `${one.name}: ${every(one) ? 'every check' : one.open.map(checkName).join(', ')}`);
  return `Examined by nobody: ${parts.join('; ')}.`;
}

const checkName = (key: CheckKey): string => checkByKey(key)?.name.toLowerCase() ?? key;
