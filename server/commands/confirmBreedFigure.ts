import { saveBreedFigure } from '#db/queries/saveBreedFigure';
import type { BreedFigureInput } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

/** One figure for each ratio of a litter; every evaluation of the litter reads the same. */
export function confirmBreedFigure(runtime: Runtime, evaluationId: string, figure: BreedFigureInput): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll }) => {
    if (figure.low > figure.high) throw new DomainError('bad-input', { field: 'low' });
    saveBreedFigure(runtime.db, { ...figure, litterId: facts.litter.id, confirmedAt: at });
    touchAll();
  });
}
