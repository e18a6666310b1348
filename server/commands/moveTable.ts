import { setTableShowing } from '#db/queries/setTableShowing';
import { decideMoveTable } from '#lib/evaluation/decideRound';
import type { Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

type Move = { readonly evaluationId: string; readonly viewer: Viewer; readonly showingId: string };

/** The table person says who is up; every device follows. */
export function moveTable(runtime: Runtime, { evaluationId, viewer, showingId }: Move): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll }) => {
    refuse(decideMoveTable(facts, viewer, showingId));
    setTableShowing(runtime.db, evaluationId, showingId);
    touchAll();
  });
}
