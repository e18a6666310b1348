import { describe, expect, it } from 'vitest';
import { robustnessView } from '#lib/blind/robustnessView';
import { robustnessViewSchema } from '#lib/contract/boardView';
import type { SlotResult } from '#lib/reconcile/merit/reconciliation';
import { fern, id, mentor, moss, snapshotOf } from '#tests/support/evaluationFacts';

type Asked = Parameters<typeof robustnessView>[0];
const quince = { quince: 'quince' };
const slot = id('6');
const snapshot: Asked['snapshot'] = {
  ...snapshotOf(),
  slots: [{ ...(snapshotOf().slots[0] ?? { purpose: 'keep' }), id: slot } as Asked['snapshot']['slots'][number]],
};
const ordered = (...puppies: readonly string[]) =>
  puppies.map((puppy) => ({
    puppy,
    estimate: 0,
    sd: 1,
    low: -1,
    high: 1,
    halfLow: 0,
    halfHigh: 0,
    mean: null,
    ranks: [],
  }));
const level = { value: 4, sd: 1, low: 3, high: 5 };
const place: SlotResult = {
  key: slot,
  purpose: 'keep',
  chances: [
    { puppy: fern.id, probability: 0.6 },
    { puppy: moss.id, probability: 0.4 },
  ],
  close: true,
  closeBelow: 0.8,
  alike: 0,
  halfStep: 0.5,
  candidates: [],
  filledBy: fern.id,
};
const purposes: Asked['reconciliation']['purposes'] = [
  { key: 'keep', merit: ordered(fern.id, moss.id), better: {}, level },
];

function told(change: Partial<Asked> = {}) {
  const robustness: Asked['robustness'] = {
    priors: [{ slot, puppy: fern.id, low: 0.55, high: 0.66, ...quince }],
    without: [
      {
        evaluator: mentor.id,
        orders: [{ purpose: 'keep', puppies: [moss.id, fern.id] }],
        slots: [{ slot, puppy: moss.id, probability: 0.52 }],
        ...quince,
      },
    ],
    settling: [{ slot, evaluator: 0.3, look: 0.1, cases: 200, ...quince }],
  };
  const view = robustnessView({
    snapshot,
    reconciliation: { purposes, slots: [place] },
    robustness,
    anonymous: false,
    ...change,
  });
  expect(robustnessViewSchema.safeParse(view).error).toBeUndefined();
  expect(JSON.stringify(view)).not.toContain('quince');
  return view;
}

describe('how far an order holds', () => {
  it('BL2: is told in sentences with the names of puppies, places and seats, and nothing beside', () => {
    expect(told()).toEqual({
      priors: [
        'Place 1: with all assumed spreads halved or doubled, Fern is the best of those eligible in 55 to 66 of 100 readings.',
      ],
      without: ['Without the mentor the order is Moss and Fern; place 1 would lean to Moss (52 of 100 readings).'],
      settling: [
        'One more evaluator who scores all puppies on every criterion would settle place 1 in about 30 of 100 cases, one look by every seat at the two likeliest in about 10 (200 cases drawn).',
      ],
    });
  });

  it('ST4: nothing is said to lean where the order and the likeliest puppy of each place are as they were', () => {
    const same: Asked['reconciliation'] = {
      purposes: [{ key: 'keep', merit: ordered(moss.id, fern.id), better: {}, level }],
      slots: [{ ...place, chances: [{ puppy: moss.id, probability: 0.6 }] }],
    };
    expect(told({ reconciliation: same }).without).toEqual(['Without the mentor the order stays as it is.']);
    expect(told({ reconciliation: { ...same, slots: [{ ...place, chances: [] }] } }).without).toEqual([
      'Without the mentor place 1 would lean to Moss (52 of 100 readings).',
    ]);
  });

  it('ST4: of several purposes the order that changes is told with its purpose', () => {
    const without: Asked['robustness']['without'] = [
      {
        evaluator: mentor.id,
        orders: [
          { purpose: 'keep', puppies: [fern.id, moss.id] },
          { purpose: 'working', puppies: [moss.id, fern.id] },
        ],
        slots: [],
      },
    ];
    const two: Asked['reconciliation'] = {
      purposes: [...purposes, { key: 'working', merit: ordered(fern.id, moss.id), better: {}, level }],
      slots: [],
    };
    expect(told({ reconciliation: two, robustness: { priors: [], without, settling: [] } }).without).toEqual([
      'Without the mentor the order for a working home is Moss and Fern.',
    ]);
  });

  it('BL9: an anonymous panel is told nothing of single seats', () => {
    const { without, ...rest } = told({ anonymous: true });
    expect(without).toEqual([]);
    expect([rest.priors.length, rest.settling.length]).toEqual([1, 1]);
  });
});
