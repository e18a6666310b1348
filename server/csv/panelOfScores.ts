import type { Panel } from '#lib/reconcile/panel';
import type { ScoreOptions, ScoreRow } from './parseScores';

/** The panel a file describes, in alphabetical order whatever the order of its lines (ST2). Blank cells make no score, but their names count. */
export function panelOfScores(rows: readonly ScoreRow[], { scale, twoSided }: Pick<ScoreOptions, 'scale' | 'twoSided'>): Panel {
  const names = (of: (row: ScoreRow) => string) => [...new Set(rows.map(of))].sort();
  const scores = rows.flatMap(({ puppy, evaluator, criterion, score }) => (score === null ? [] : [{ puppy, evaluator, criterion, value: score }]));
  const place = (score: (typeof scores)[number]) => JSON.stringify([score.puppy, score.evaluator, score.criterion]);
  return {
    scale,
    puppies: names((row) => row.puppy),
    evaluators: names((row) => row.evaluator),
    criteria: names((row) => row.criterion).map((key) => ({ key, twoSided: twoSided.has(key) })),
    scores: scores.sort((a, b) => (place(a) < place(b) ? -1 : 1)),
  };
}
