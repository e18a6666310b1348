import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseLooks, type LookBatch, type LooksAsk } from '#lib/reconcile/looks/chooseLooks';
import { lookArrangement, type ShownLook } from '#lib/reconcile/looks/lookArrangement';
import { greedyBatch } from '#lib/reconcile/looks/lookGains';
import type { LookAnswer, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { examplePanel, questionOf } from '../examplePanel';

const lighter = { settings: { ...reconcileSettings, sampling: { points: 100, pairs: 400 } } };
const panel = examplePanel({ puppies: 6, evaluators: 3, oneSided: 5, twoSided: 1, missing: 0.1, seed: 3 });
const question = questionOf(panel);
const candidates = (reconcile(question, lighter.settings).slots[0]?.candidates ?? []).map(({ puppy }) => puppy);
const ask: LooksAsk = {
  slot: 'first',
  medium: 'table',
  seats: panel.evaluators.map((evaluator) => ({ evaluator, except: [] })),
  shown: [],
  most: 3,
};

function batchOf(asked: Partial<LooksAsk> = {}, of: ReconcileQuestion = question): LookBatch {
  const batch = chooseLooks(of, { ...ask, ...asked }, lighter);
  if ('undefined' in batch) throw new Error(batch.undefined);
  return batch;
}

const pairKeys = ({ looks }: LookBatch) => looks.map(({ first, second }) => [first, second].sort().join(' ')).sort();

describe('what is not looked at', () => {
  it('ST1: a slot that is unknown, picked or clear, or that no seat may answer, says why there is no batch', () => {
    const picked = { ...question, slots: question.slots.map((slot) => ({ ...slot, picked: panel.puppies[0] ?? '' })) };
    const alone = {
      ...question,
      slots: question.slots.map((slot) => ({ ...slot, eligible: panel.puppies.slice(0, 1) })),
    };
    expect(chooseLooks(question, { ...ask, slot: 'other' }, lighter)).toEqual({ undefined: 'this place is not open' });
    expect(chooseLooks(picked, ask, lighter)).toEqual({ undefined: 'this place is not open' });
    expect(chooseLooks(alone, ask, lighter)).toEqual({ undefined: 'this place is not a close call' });
    expect(chooseLooks(question, { ...ask, seats: [] }, lighter)).toEqual({ undefined: 'no seat may answer' });
    const aside = panel.evaluators.map((evaluator) => ({ evaluator, except: panel.puppies }));
    expect(chooseLooks(question, { ...ask, seats: aside }, lighter)).toEqual({ undefined: 'no seat may answer' });
  });

  it('BL8: a seat never answers a pair with its own pick in it, and a pair nobody may answer is not opened', () => {
    const [mine = '', other = ''] = candidates;
    const seats = panel.evaluators.map((evaluator, at) => ({ evaluator, except: at === 0 ? [mine] : [] }));
    for (const look of batchOf({ seats }).looks) {
      expect(look.seats.includes(panel.evaluators[0] ?? '')).toBe(look.first !== mine && look.second !== mine);
    }
    const closed = panel.evaluators.map((evaluator) => ({ evaluator, except: [other] }));
    for (const look of batchOf({ seats: closed, most: 5 }).looks)
      expect([look.first, look.second]).not.toContain(other);
  });
});

describe('which pairs', () => {
  it("ST3: up to the number asked for, each once, all among the slot's candidates", () => {
    expect(candidates.length).toBeGreaterThanOrEqual(3);
    for (const most of [1, 2, 3, 99]) {
      const batch = batchOf({ most });
      expect(batch.looks.length).toBe(Math.min(most, 5, (candidates.length * (candidates.length - 1)) / 2));
      expect(new Set(pairKeys(batch)).size).toBe(batch.looks.length);
      for (const { first, second } of batch.looks) expect(candidates).toEqual(expect.arrayContaining([first, second]));
      expect(batch.gain).toBeGreaterThanOrEqual(0);
      expect(batch.now + batch.gain).toBeLessThanOrEqual(1);
    }
  });

  it("ST3: one seat's answer tells no more than those of all, and more pairs no less than fewer", () => {
    const one = batchOf({ seats: ask.seats.slice(0, 1), most: 1 });
    const all = batchOf({ most: 1 });
    expect(all.gain).toBeGreaterThanOrEqual(one.gain - 0.005);
    expect(batchOf({ most: 3 }).gain).toBeGreaterThanOrEqual(all.gain - 0.005);
  });

  it('ST3: the gain of one exact answer about two level puppies is that of knowing the better: from 1/2 to 1', () => {
    // Draws 0 … 99 favour the first puppy, 100 … 199 the second; the seat answers rightly and never sees a tie.
    const best = Int32Array.from({ length: 200 }, (_, draw) => (draw < 100 ? 0 : 1));
    const sure = Float64Array.from({ length: 600 }, (_, at) => (at % 3 === (best[Math.floor(at / 3)] ?? -1) ? 1 : 0));
    const guess = Float64Array.from({ length: 600 }, (_, at) => (at % 3 === 2 ? 0 : 0.5));
    const batch = greedyBatch({ tables: [[guess], [sure]], best, puppies: 2, most: 2 }, createSeededRandom(1));
    expect(batch[0]?.pair).toBe(1);
    expect(batch[0]?.gain).toBeCloseTo(0.5, 1);
    expect(batch[1]?.gain).toBeCloseTo(batch[0]?.gain ?? NaN, 12);
    expect(greedyBatch({ tables: [[guess]], best, puppies: 2, most: 2 }, createSeededRandom(1))).toEqual([
      { pair: 0, gain: 0 },
    ]);
    expect(greedyBatch({ tables: [[]], best, puppies: 2, most: 2 }, createSeededRandom(1))).toEqual([]);
  });

  it('ST2: the same data gives the same batch, sides and order, however rows, looks and seats are listed', () => {
    const [a = '', b = '', c = ''] = candidates;
    const looks: LookAnswer[] = [
      { evaluator: 'seat1', purpose: 'show', first: a, second: b, choice: 'tie' },
      { evaluator: 'seat2', purpose: 'show', first: b, second: c, choice: 'first' },
    ];
    const shuffled = {
      ...panel,
      puppies: [...panel.puppies].reverse(),
      evaluators: [...panel.evaluators].reverse(),
      scores: [...panel.scores].reverse(),
    };
    const turned: ReconcileQuestion = {
      ...questionOf(shuffled),
      looks: [...looks].reverse(),
      slots: question.slots.map((slot) => ({ ...slot, eligible: [...slot.eligible].reverse() })),
    };
    expect(batchOf({}, turned)).toEqual(batchOf({}, { ...question, looks }));
    expect(batchOf({}, question)).toEqual(batchOf());
  });

  it('ST3: looks already answered count: the batch after them starts from the chances the board shows', () => {
    const [a = '', b = ''] = candidates;
    const looks: LookAnswer[] = panel.evaluators.map((evaluator) => ({
      evaluator,
      purpose: 'show',
      first: a,
      second: b,
      choice: 'tie',
    }));
    expect(batchOf({}, { ...question, looks }).now).toBeCloseTo(
      reconcile({ ...question, looks }, lighter.settings).slots[0]?.chances[0]?.probability ?? NaN,
      10,
    );
  });
});

describe('who stands where', () => {
  const pairs = [
    { first: 'a', second: 'b' },
    { first: 'a', second: 'c' },
    { first: 'b', second: 'c' },
  ];
  const everyone = pairs.map(() => ['x', 'y', 'z', 'w']);

  it('ST3: a pair shown before is swapped, at the table for all, from photographs for the seat that saw it', () => {
    fc.assert(
      fc.property(fc.boolean(), fc.boolean(), fc.integer(), (firstOnLeft, named, seed) => {
        const before = named ? { first: 'a', second: 'b' } : { first: 'b', second: 'a' };
        const shown: ShownLook[] = [null, 'x'].map((evaluator) => ({ ...before, evaluator, firstOnLeft }));
        const random = createSeededRandom(seed);
        const [table] = lookArrangement(pairs, { medium: 'table', shown, seats: everyone }, random);
        expect(table).toEqual({ repeat: true, firstOnLeft: firstOnLeft !== named, firstOnLeftBySeat: {} });
        const [photographs, next] = lookArrangement(pairs, { medium: 'photographs', shown, seats: everyone }, random);
        expect(photographs?.repeat).toBe(true);
        expect(photographs?.firstOnLeftBySeat.x).toBe(firstOnLeft !== named);
        expect(next?.repeat).toBe(false);
      }),
    );
  });

  it('ST3: sides are balanced: over one batch nobody leans by more than one, and of four seats two see either side', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const table = lookArrangement(pairs, { medium: 'table', shown: [], seats: everyone }, createSeededRandom(seed));
        for (const puppy of ['a', 'b', 'c']) {
          const lean = table.reduce((sum, { firstOnLeft }, at) => {
            const pair = pairs[at];
            return pair?.first === puppy
              ? sum + (firstOnLeft ? 1 : -1)
              : pair?.second === puppy
                ? sum + (firstOnLeft ? -1 : 1)
                : sum;
          }, 0);
          expect(Math.abs(lean)).toBeLessThanOrEqual(2);
        }
        expect(table[1]?.firstOnLeft).toBe(!table[0]?.firstOnLeft);
        const [first] = lookArrangement(
          pairs,
          { medium: 'photographs', shown: [], seats: everyone },
          createSeededRandom(seed),
        );
        expect(Object.values(first?.firstOnLeftBySeat ?? {}).filter(Boolean).length).toBe(2);
      }),
    );
  });

  it('BL8: from photographs every answering seat gets a side, and nobody else', () => {
    const seats = panel.evaluators.map((evaluator, at) => ({
      evaluator,
      except: at === 0 ? candidates.slice(0, 1) : [],
    }));
    for (const look of batchOf({ medium: 'photographs', seats }).looks)
      expect(Object.keys(look.firstOnLeftBySeat).sort()).toEqual([...look.seats].sort());
  });
});
