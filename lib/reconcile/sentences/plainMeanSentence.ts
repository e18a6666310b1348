import type { Panel, PurposeQuestion } from '../panel';
import type { EvaluatorResult, PurposeResult } from '../reconciliation';

export type PlainMeanComparison = {
  readonly panel: Panel;
  readonly purpose: PurposeQuestion;
  readonly result: PurposeResult;
  readonly evaluators: readonly EvaluatorResult[];
  readonly names: Readonly<Record<string, string>>;
};

/** Why the order differs from the plain mean's; null when both put the same puppy first. */
export function plainMeanSentence({ result, names }: PlainMeanComparison): string | null {
  const [first] = result.merit;
  const byMean = result.merit.filter((one) => one.mean !== null).toSorted((a, b) => (b.mean ?? 0) - (a.mean ?? 0));
  const [plain] = byMean;
  if (!first || !plain || first.puppy === plain.puppy) return null;
  return `The plain mean puts ${names[plain.puppy] ?? plain.puppy} first: it does not allow for who scored which puppy.`;
}
