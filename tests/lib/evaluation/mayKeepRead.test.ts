import { expect, it } from 'vitest';
import { evaluationView } from '#lib/blind/evaluationView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { mayKeepRead } from '#lib/evaluation/mayKeepRead';
import { breeder, factsAt, type FactsStage, mentor, seatFacts, tableHand } from '#tests/support/evaluationFacts';

const beside = { versions: { all: 1, own: 1 }, head: { seq: 1, hash: '' }, commitments: [] };

function viewFor(stage: FactsStage, seatId: string | null, owner: boolean): EvaluationView {
  const seats = [breeder, mentor, tableHand, seatFacts({ id: '9', owner: false })];
  const view = evaluationView(factsAt(stage, { seats }), { owner, seatId, leads: owner }, beside);
  if (!view) throw new Error('no view');
  return view;
}

it.each([
  ['nothing is scored yet', 'preparing', mentor.id, false],
  ['the round is revealed', 'revealed', mentor.id, false],
  ['the record is sealed', 'sealed', mentor.id, false],
  ['the seat scores nothing', 'open', tableHand.id, false],
  ['the seat scores nothing, and the round is closed', 'closed', tableHand.id, false],
  ['the owner holds no seat', 'open', null, false],
  ['a seat scores in an open round', 'open', mentor.id, true],
  ['a seat has scored in a closed round', 'closed', mentor.id, true],
] as const)('SC6: a device keeps what its seat reads, when %s', (_case, stage, seatId, keeps) => {
  expect(mayKeepRead(viewFor(stage, seatId, seatId === null))).toBe(keeps);
});
