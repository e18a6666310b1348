import type { EvaluationInput } from '#lib/contract/setup';
import type { Db } from '../open';
import { evaluation } from '../schema';

type NewEvaluation = EvaluationInput & {
  readonly id: string;
  readonly litterId: string;
  readonly sheetId: string;
  readonly order: readonly string[];
  readonly createdAt: number;
};

export function insertEvaluation(db: Db, { order, ...row }: NewEvaluation): void {
  db.insert(evaluation)
    .values({ ...row, phase: 'preparing', showingOrder: JSON.stringify(order) })
    .run();
}
