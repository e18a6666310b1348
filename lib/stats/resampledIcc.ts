import type { Undefined } from './coefficient';
import { iccPoints, type IccForm } from './intraclassCorrelation';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, isComplete, raterCount, type ScoreTable } from './scoreTable';
import { twoWayMeanSquares } from './twoWayMeanSquares';

/** One intraclass correlation of a complete table as a function of how often each unit is drawn; raters are kept. */
export function resampledIcc(table: ScoreTable, form: IccForm): ResampledStatistic | Undefined {
  const ordered = canonicalTable(table);
  if (ordered.length < 2) return { undefined: 'fewer than two units' };
  if (!isComplete(ordered)) return { undefined: 'missing cells' };
  if (raterCount(ordered) < 2) return { undefined: 'one rater' };
  return { units: ordered.length, evaluate: (counts) => iccPoints(twoWayMeanSquares(ordered, counts))[form] };
}
