import type { ScoreTable } from '#lib/stats/scoreTable';
import type { Panel } from '../panel/panel';

/**
 * One criterion's scores as entered (a signed degree where two-sided): a row a puppy, a column an evaluator who judged it at least
 * once, both in alphabetical order (ST2); null where a puppy was not judged. A seat that cannot judge the criterion at all is no rater of it.
 */
export function criterionTable(panel: Panel, criterion: string): ScoreTable {
  const scores = panel.scores.filter((score) => score.criterion === criterion);
  const cells = new Map(scores.map(({ puppy, evaluator, value }) => [JSON.stringify([puppy, evaluator]), value]));
  const raters = new Set(scores.map(({ evaluator }) => evaluator));
  return [...panel.puppies]
    .sort()
    .map((puppy) => [...raters].sort().map((evaluator) => cells.get(JSON.stringify([puppy, evaluator])) ?? null));
}
