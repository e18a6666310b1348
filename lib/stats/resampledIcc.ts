import type { Undefined } from './coefficient';
import { iccPoints, type IccForm } from './intraclassCorrelation';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, isComplete, raterCount, type ScoreTable } from './scoreTable';
import { twoWayMeanSquares } from './twoWayMeanSquares';

/**
 * One intraclass correlation of a complete table as a function of how often each unit is drawn, for the bootstrap
 * and the jackknife over units. The raters are kept: it is the units that stand for others of their kind.
 *
 * In: units × raters in points; the form as in `IccForm`. Out: a function of the counts, null where the form has
 * no value.
 * Undefined: fewer than two units, a cell without a score, fewer than two raters. Source: `intraclassCorrelations`.
 *
 * @example Shrout & Fleiss's table, each unit once, and with the last left out.
 * const table = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
 * resampledIcc(table, 'A,1').evaluate([1, 1, 1, 1, 1, 1]) // 0.2898
 * resampledIcc(table.slice(0, 5), 'A,1').evaluate([1, 1, 1, 1, 1]) // 0.3259
 * resampledIcc([[1, null], [2, 3]], 'A,1') // { "undefined": "missing cells" }
 */
export function resampledIcc(table: ScoreTable, form: IccForm): ResampledStatistic | Undefined {
  const ordered = canonicalTable(table);
  if (ordered.length < 2) return { undefined: 'fewer than two units' };
  if (!isComplete(ordered)) return { undefined: 'missing cells' };
  if (raterCount(ordered) < 2) return { undefined: 'one rater' };
  return { units: ordered.length, evaluate: (counts) => iccPoints(twoWayMeanSquares(ordered, counts))[form] };
}
