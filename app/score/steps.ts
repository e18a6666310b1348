import type { PuppyFace } from '#lib/contract/evaluationView';
import type { Sex } from '#lib/contract/litter';
import type { SeatKind } from '#lib/contract/setup';
import { registerOf } from '#lib/evaluation/outboxState';
import { type OwnAnswer, saysSomething } from '#lib/evaluation/ownAnswers';
import type { Check } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { byView, type Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { viewWords } from '../_parts/textWords';
import type { Scoring } from './useScoring';

/** One thing asked about one puppy, on one screen. */
export type Step =
  | { readonly kind: 'score' | 'free'; readonly criterion: Criterion }
  | { readonly kind: 'check'; readonly check: Check }
  | { readonly kind: 'day' }
  | { readonly kind: 'overall' };

/**
 * What a seat is asked about a puppy, in order: criteria by view, a free-stance score after its criterion, the checks,
 * manner and a fair day, and the overall impression last. What needs hands is asked of hands only, testicles of dogs only.
 */
export function stepsFor(sheet: Sheet, kind: SeatKind, sex: Sex): readonly Step[] {
  const hands = kind === 'hands';
  const criteria = byView(sheet.criteria).filter((criterion) => hands || !criterion.handsOnly);
  const checks = sheet.checks.flatMap((key) => checkByKey(key) ?? []).filter((check) => hands || !check.handsOnly);
  return [
    ...criteria.flatMap((criterion): Step[] => [
      { kind: 'score', criterion },
      ...(criterion.freeStance ? [{ kind: 'free' as const, criterion }] : []),
    ]),
    ...checks
      .filter(({ onlyIn }) => onlyIn === undefined || onlyIn === sex)
      .map((check): Step => ({ kind: 'check', check })),
    { kind: 'day' },
    { kind: 'overall' },
  ];
}

/** The field its answer is kept under. */
export function stepField(step: Step): string {
  switch (step.kind) {
    case 'score':
    case 'free':
      return `${step.kind}:${step.criterion.key}`;
    case 'check':
      return `check:${step.check.key}`;
    case 'day':
      return 'manner';
    case 'overall':
      return 'overall';
  }
}

export function stepTitle(step: Step): string {
  switch (step.kind) {
    case 'score':
      return step.criterion.name;
    case 'free':
      return `${step.criterion.name}, standing free`;
    case 'check':
      return step.check.name;
    case 'day':
      return 'Manner and day';
    case 'overall':
      return 'Overall impression';
  }
}

/** The heading it stands under in the list. */
export function stepGroup(step: Step): string {
  switch (step.kind) {
    case 'score':
    case 'free':
      return viewWords[step.criterion.view];
    case 'check':
      return 'Checks';
    case 'day':
    case 'overall':
      return 'Last';
  }
}

type Answers = ReadonlyMap<string, OwnAnswer>;

export function isAnswered(step: Step, subject: string, answers: Answers): boolean {
  return saysSomething(answers.get(registerOf(subject, stepField(step)))?.body ?? null);
}

/** What was asked and not yet answered; a free-stance score is an offer, not a question. */
export function missingSteps(steps: readonly Step[], subject: string, answers: Answers): readonly Step[] {
  return steps.filter((step) => step.kind !== 'free' && !isAnswered(step, subject, answers));
}

/** Where a puppy's questions open: at the first open one, at the beginning when none or all are answered. */
export function firstOpen(steps: readonly Step[], subject: string, answers: Answers): number {
  const [first] = missingSteps(steps, subject, answers);
  return first && steps.some((step) => isAnswered(step, subject, answers)) ? steps.indexOf(first) : 0;
}

/** What this seat is asked about a puppy in this round: everything, or in a second round the questions that were flagged and no other. */
export function stepsOf(
  { evaluation, round, seat }: Pick<Scoring, 'evaluation' | 'round' | 'seat'>,
  puppy: PuppyFace,
): readonly Step[] {
  const steps = stepsFor(evaluation.sheet, seat.kind, puppy.sex);
  const { cells } = round;
  if (cells === null) return steps;
  return steps.filter(
    (step) =>
      step.kind === 'score' && cells.some((cell) => cell.puppyId === puppy.id && cell.criterion === step.criterion.key),
  );
}
