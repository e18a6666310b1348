import { clearlyLargest } from '../seats/clearlyLargest';
import { plainMeans } from '../panel/plainMean';
import type { Panel, PurposeQuestion } from '../panel/panel';
import type { EvaluatorResult, Merit, PurposeResult } from '../merit/reconciliation';
import { pairSentence } from './pairSentence';
import { capitalised, listed, nameOf, type Names } from './readings';
import { pointsInWords } from './severitySentence';

/** Means closer than this are the same but for rounding. */
const LEVEL = 1e-9;

export type PlainMeanQuestion = {
  readonly panel: Panel;
  readonly purpose: PurposeQuestion;
  readonly result: PurposeResult;
  readonly evaluators: readonly EvaluatorResult[];
  /** Names of puppies and of evaluators, by key. */
  readonly names: Names;
};

/**
 * Whether the plain mean orders the puppies alike, and if not, why for the highest place they disagree on. A seat is named as the cause only
 * when her severity, clear of zero, and who she missed account for the difference by the numbers. With complete cards and seats of one reliability
 * the model's order is the plain mean's where all criteria weigh alike; it is said of those panels alone whose two orders were found to be the same.
 */
export function plainMeanSentence(question: PlainMeanQuestion): string {
  const { merit } = question.result;
  const unjudged = merit.filter(({ mean }) => mean === null).map(({ puppy }) => nameOf(question.names, puppy));
  const without =
    unjudged.length > 0
      ? ` ${capitalised(listed(unjudged))} cannot be placed by a plain mean: nobody scored what counts here.`
      : '';
  const pair = firstDisagreement(merit);
  if (!pair) return `${sameOrder(question)}${without}`;
  const [ahead, behind] = pair.map((puppy) => nameOf(question.names, puppy));
  const opening = `The plain mean puts ${behind} above ${ahead}; this order puts ${ahead} above ${behind}${reason(question, pair)}.`;
  return `${opening} ${pairSentence(question.result, pair, question.names)}${without}`;
}

/** Two whose plain means are level are in no order by it, so of them it is not said that the order is the same. */
function sameOrder({ panel, purpose, result, evaluators, names }: PlainMeanQuestion): string {
  const level = levelGroups(result.merit);
  if (level.length > 0)
    return `The plain mean gives the same order, but holds ${level.map((group) => listed(group.map((puppy) => nameOf(names, puppy)))).join('; and ')} for equal.`;
  const even = !(['liking', 'noise'] as const).some((kind) =>
    evaluators.some((one) => clearlyLargest(one, evaluators, kind)),
  );
  const judged = result.merit.every(({ mean }) => mean !== null);
  return even && judged && isComplete(panel, purpose)
    ? 'Every card is complete and no seat stands out: the order is the plain mean’s.'
    : 'The plain mean gives the same order.';
}

/** Puppies, neighbours in merit's order, whose plain means are the same. */
function levelGroups(merit: readonly Merit[]): string[][] {
  const groups: { mean: number; puppies: string[] }[] = [];
  for (const { puppy, mean } of merit) {
    if (mean === null) continue;
    const last = groups.at(-1);
    if (last && Math.abs(last.mean - mean) <= LEVEL) last.puppies.push(puppy);
    else groups.push({ mean, puppies: [puppy] });
  }
  return groups.map(({ puppies }) => puppies).filter(({ length }) => length > 1);
}

/** The highest pair that merit and plain mean put the opposite way round: [merit's choice, plain mean's choice]. */
function firstDisagreement(merit: readonly Merit[]): readonly [string, string] | null {
  const judged = merit.filter((one): one is Merit & { readonly mean: number } => one.mean !== null);
  for (const [at, ahead] of judged.entries()) {
    const rivals = judged
      .slice(at + 1)
      .filter(({ mean, estimate }) => mean > ahead.mean + LEVEL && estimate < ahead.estimate);
    const [strongest] = rivals.sort((a, b) => b.mean - a.mean);
    if (strongest) return [ahead.puppy, strongest.puppy];
  }
  return null;
}

function reason(question: PlainMeanQuestion, pair: readonly [string, string]): string {
  return (
    severityReason(question, pair) ?? weightReason(question, pair) ?? generalReason(question.panel, question.purpose)
  );
}

/** Names the one seat whose severity, in the cells she judged of the one puppy and not of the other, turned the plain mean round. */
function severityReason(
  { panel, purpose, evaluators, names }: PlainMeanQuestion,
  pair: readonly [string, string],
): string | null {
  const means = plainMeans(panel, purpose);
  const gap = (means.get(pair[0]) ?? 0) - (means.get(pair[1]) ?? 0);
  const pulls = evaluators.flatMap(({ evaluator, severity }) => {
    if ('undefined' in severity || (severity.low <= 0 && severity.high >= 0)) return [];
    const shares = pair.map((puppy) => shareOf(panel, purpose, { puppy, evaluator }));
    return [
      { evaluator, severity: severity.value, shares, pull: severity.value * ((shares[0] ?? 0) - (shares[1] ?? 0)) },
    ];
  });
  const [strongest] = pulls.sort((a, b) => a.pull - b.pull);
  if (!strongest || gap - strongest.pull <= 0) return null;
  const [judged, missed] = strongest.severity < 0 ? pair : [pair[1], pair[0]];
  const seen = strongest.severity < 0 ? strongest.shares : [...strongest.shares].reverse();
  const name = nameOf(names, strongest.evaluator);
  const level = `${pointsInWords(strongest.severity)} ${strongest.severity < 0 ? 'below' : 'above'} the panel’s level`;
  const extent =
    (seen[1] ?? 0) === 0
      ? `scored ${nameOf(names, judged)} and not ${nameOf(names, missed)}`
      : `scored more of ${nameOf(names, judged)} than of ${nameOf(names, missed)}`;
  return `, because ${name}, who scores ${level}, ${extent}`;
}

/** Share of the weight behind a puppy's plain mean that comes from one evaluator. */
function shareOf(
  panel: Panel,
  purpose: PurposeQuestion,
  cell: { readonly puppy: string; readonly evaluator: string },
): number {
  let [own, all] = [0, 0];
  for (const score of panel.scores) {
    if (score.puppy !== cell.puppy) continue;
    const weight = Math.max(0, purpose.weights[score.criterion] ?? 0);
    all += weight;
    if (score.evaluator === cell.evaluator) own += weight;
  }
  return all > 0 ? own / all : 0;
}

/** Names the one seat whose likings or noise are clearly the largest and without whose scores the plain mean agrees. */
function weightReason(question: PlainMeanQuestion, pair: readonly [string, string]): string | null {
  const { panel, purpose, evaluators, names } = question;
  for (const kind of ['liking', 'noise'] as const) {
    const standsOut = evaluators.find((one) => clearlyLargest(one, evaluators, kind));
    if (!standsOut) continue;
    const rest = panel.scores.filter(({ evaluator }) => evaluator !== standsOut.evaluator);
    const means = plainMeans({ ...panel, scores: rest }, purpose);
    const [ahead, behind] = [means.get(pair[0]) ?? null, means.get(pair[1]) ?? null];
    if (ahead === null || behind === null || ahead <= behind) continue;
    const name = nameOf(names, standsOut.evaluator);
    return kind === 'liking'
      ? `, because ${name}'s scores follow a liking for a puppy as a whole more than the others' do, and so weigh less`
      : `, because ${name}'s scores scatter more than the others', and so weigh less`;
  }
  return null;
}

/** True of every such difference, and claims no single cause. */
function generalReason(panel: Panel, purpose: PurposeQuestion): string {
  const gaps = isComplete(panel, purpose) ? '' : ', for the cells not scored';
  return `: it allows for how far each seat’s scores can be relied on${gaps} and for chance in every score; no single seat accounts for the difference`;
}

/** Whether every seat that scored at all scored every puppy on all that counts. */
function isComplete(panel: Panel, purpose: PurposeQuestion): boolean {
  const counted = panel.criteria.filter(({ key }) => (purpose.weights[key] ?? 0) > 0).length;
  const evaluators = new Set(panel.scores.map(({ evaluator }) => evaluator)).size;
  const cells = panel.scores.filter(({ criterion }) => (purpose.weights[criterion] ?? 0) > 0).length;
  return cells === counted * evaluators * panel.puppies.length;
}
