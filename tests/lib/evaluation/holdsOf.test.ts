import { expect, it } from 'vitest';
import type { Snapshot } from '#lib/contract/snapshot';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { slotEligibility } from '#lib/evaluation/pickOrder';
import { checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { shortSheet } from '#lib/sheet/shippedSheets';

const id = (digit: string) => digit.repeat(32);
const puppy = { id: id('a'), name: 'Fern', sex: 'bitch', collar: 'blue', secondMark: '', withdrawn: false } as const;
const slot = { id: id('5'), taker: 'breeder', seatId: null, purpose: 'keep', sex: 'any', condition: '', byWhen: '', ifFails: '' } as const;

function snapshotWith(check: string, answer: string): Snapshot {
  const body = { kind: 'check', check, answer, detail: '' } as const;
  return {
    evaluationId: id('e'), roundId: id('f'), medium: 'table', revealedAt: 1, sheet: shortSheet, puppies: [puppy], seats: [], slots: [], purposes: [],
    cells: null, coded: false,
    showings: [{ id: id('b'), puppyId: puppy.id, place: 0, repeat: false }],
    answers: [{ seatId: id('c'), subject: id('b'), field: `check:${check}`, counter: 1, body }],
  };
}

it('SA1: of all answers to all checks, exactly watch and not normal on the eight named checks hold a keep', () => {
  const named = ['breathing', 'eyes', 'skin', 'gait', 'bite', 'palate', 'testicles', 'navel-and-groin'];
  for (const key of checkKeys) {
    for (const answer of checkByKey(key)?.answers ?? []) {
      const holds = holdsOf(snapshotWith(key, answer.key), []).length > 0;
      expect([key, answer.key, holds]).toEqual([key, answer.key, named.includes(key) && (answer.outcome === 'watch' || answer.outcome === 'not-normal')]);
    }
  }
});

it('SA1: a hold keeps a puppy out of keeps only, and falls with a recorded answer', () => {
  const held = new Set([puppy.id]);
  expect(slotEligibility(slot, [puppy], held)).toEqual([]);
  expect(slotEligibility({ ...slot, purpose: 'working' }, [puppy], held)).toEqual([puppy.id]);
  expect(slotEligibility({ ...slot, purpose: 'companion' }, [puppy], held)).toEqual([puppy.id]);
  expect(slotEligibility({ ...slot, sex: 'dog' }, [puppy], new Set())).toEqual([]);
  expect(slotEligibility(slot, [{ ...puppy, withdrawn: true }], new Set())).toEqual([]);
  const cleared = holdsOf(snapshotWith('bite', 'undershot'), [{ puppyId: puppy.id, check: 'bite', answer: 'fine', by: 'veterinary surgeon', at: 2 }]);
  expect(cleared.map((hold) => hold.cleared?.answer)).toEqual(['fine']);
});
