import { describe, expect, it } from 'vitest';
import { missedTargets } from '#lib/reconcile/calibration/calibrationTargets';
import { judgeAgenda } from '#lib/reconcile/calibration/judgeAgenda';
import { judgeBatches } from '#lib/reconcile/calibration/judgeBatches';
import { smallPanel } from '#lib/reconcile/calibration/scenarios';
import { simulatedLook } from '#lib/reconcile/calibration/simulatedLook';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { lookSettings } from '#lib/reconcile/looks/lookSettings';
import { reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { createLikingPlaces } from '#lib/reconcile/merit/likingPlaces';
import { lookedSlots } from '#lib/reconcile/looks/lookedSlots';
import { bestBatch, pairsAmong } from '#lib/reconcile/looks/bestBatch';
import { scorePosterior } from '#lib/reconcile/merit/scorePosterior';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { fullSize } from '#tests/support/faultSize';
import { questionOf } from './examplePanel';

/** A seeded part of what `npm run calibrate` runs in full; the margins are those of the smaller number. */
const size = fullSize
  ? { calls: 20, chosen: 10, litters: 30, ratio: 1.25, wide: 1 }
  : { calls: 6, chosen: 4, litters: 12, ratio: 1, wide: 1.8 };
const lighter = { ...reconcileSettings, sampling: { points: 60, pairs: 500 } };

describe('second looks to the stop rule', () => {
  it("ST3: looks answered with each seat's liking carried over: claimed probabilities come true, and looking does not make the pick worse", () => {
    const verdict = judgeBatches(smallPanel, { closeCalls: size.calls, seed: 12, pairs: 3, settings: lighter });
    expect(verdict.stops.count).toBe(size.calls);
    expect(verdict.settled.count + verdict.notSettled.count + verdict.equal.count).toBe(size.calls);
    // The share right of 20 stops has a standard error of 0.11, of 6 one of 0.2.
    expect(Math.abs(verdict.stops.claimed - verdict.stops.right)).toBeLessThan(0.22 * size.wide);
    expect(verdict.stops.known).toBeGreaterThan(0.2);
    expect(Math.abs(verdict.stops.claimed - verdict.stops.known)).toBeLessThan(
      Math.max(0.12 * size.wide, 3 * verdict.stops.error),
    );
    expect(verdict.notSettled.claimed).toBeLessThan(0.8);
    expect(verdict.chosen).toBeGreaterThan(verdict.before - 0.01);
    // What chosen pairs gain over random ones is a fraction of a reading, far below the luck of so few calls: here no more than that they are not clearly worse; `calibrate` holds them to be better.
    expect(verdict.difference.high).toBeGreaterThan(0);
  });

  it("ST3: the simulated look reads merit plus the seat's own liking", () => {
    const simulated = simulateLitter(smallPanel, createSeededRandom(2));
    const silent = { ...lookSettings, noise: 0, tieHalfWidth: 0 };
    const [a = '', b = ''] = simulated.panel.puppies;
    const [liking = []] = simulated.liking;
    const gap = (simulated.merit.get(a) ?? 0) + (liking[0] ?? 0) - (simulated.merit.get(b) ?? 0) - (liking[1] ?? 0);
    expect(simulatedLook(simulated, { pair: [a, b], seat: 0, luck: 1 }, silent).choice).toBe(
      gap > 0 ? 'first' : 'second',
    );
    expect(simulatedLook(simulated, { pair: [b, a], seat: 0, luck: 1 }, silent).choice).toBe(
      gap > 0 ? 'second' : 'first',
    );
    expect(simulatedLook(simulated, { pair: [a, b], seat: 0, luck: 0 }, { ...silent, tieHalfWidth: 99 }).choice).toBe(
      'tie',
    );
  });
});

describe('chosen pairs', () => {
  it('ST3: the batch chosen is expected to gain more than three pairs drawn at random among the candidates', () => {
    let [chosen, random, calls] = [0, 0, 0];
    for (let litter = 0; calls < size.chosen; litter += 1) {
      const luck = createSeededRandom(litter);
      const { panel } = simulateLitter(smallPanel, luck);
      const question = questionOf(panel);
      const scored = scorePosterior(question, lighter);
      const places = createLikingPlaces(scored.design);
      for (const seat of scored.design.seats) panel.puppies.forEach((_, puppy) => places.placeOf(seat, puppy));
      const { folded, slots } = lookedSlots(question, { scored, places }, lighter);
      const [slot] = slots;
      const { design } = scored;
      const pairs = pairsAmong(slot?.candidates.map(({ puppy }) => puppy) ?? [], design).map((pair) => ({
        ...pair,
        seats: design.seats,
      }));
      if (!slot || pairs.length < 6) continue;
      calls += 1;
      const merits = folded.draws.merits[0] ?? new Float64Array(0);
      const asked = {
        design,
        folded,
        merits,
        places,
        looks: lighter.looks,
        eligible: design.puppies.map((_, at) => at),
        most: 3,
        draws: 1000,
      };
      // Every batch is judged by other imagined truths than those it was chosen by.
      const judged = (of: typeof pairs) =>
        bestBatch({ ...asked, pairs: of }, createSeededRandom(99)).at(-1)?.gain ?? NaN;
      chosen += judged(bestBatch({ ...asked, pairs }, luck).flatMap(({ pair }) => pairs[pair] ?? []));
      for (let draw = 0; draw < 4; draw += 1) {
        const left = [...pairs];
        random += judged([0, 1, 2].flatMap(() => left.splice(luck.below(left.length), 1))) / 4;
      }
    }
    expect(chosen).toBeGreaterThan(1.1 * random);
  });
});

describe('agenda', () => {
  it('ST3: settling the first item brings clearly more than one drawn at random, and what was said beforehand', () => {
    const verdict = judgeAgenda(smallPanel, { litters: size.litters, seed: 3, slots: 3, settings: lighter });
    expect(verdict.withChoice).toBeGreaterThan((2 * size.litters) / 3 - 1);
    // The ratio of 30 litters has a standard error of about 0.14; the full run holds it to 1.5.
    expect(verdict.ratio).toBeGreaterThan(size.ratio);
    expect(Math.abs(verdict.first.settled - verdict.first.stated)).toBeLessThan(0.06 * size.wide);
    expect(Math.abs(verdict.random.settled - verdict.random.stated)).toBeLessThan(0.06 * size.wide);
  });
});

describe('targets', () => {
  it('ST3: a target missed by looks or agenda is said in words', () => {
    const nothing = { scenarios: [], ranks: [], looks: [], batches: [], agendas: [] };
    const claims = { count: 1000, claimed: 0.6, known: 0.5, error: 0.001, right: 0.5 };
    const difference = { value: 0, low: -0.001, high: 0.001 };
    const batches = [
      {
        litters: 1,
        closeCalls: 1,
        pairs: 3,
        stops: claims,
        settled: claims,
        notSettled: claims,
        equal: claims,
        before: 0,
        chosen: 0,
        random: 0,
        difference,
        rightDifference: difference,
      },
    ];
    const gains = { stated: 0, settled: 0, right: 0 };
    const agendas = [{ litters: 1, withItems: 1, withChoice: 1, first: gains, random: gains, ratio: 1.4, leads: {} }];
    expect(missedTargets({ ...nothing, batches, agendas })).toEqual([
      'batches of 3: claimed less known chance at the stop is 0.100',
      'batches of 3: chosen pairs gain no more than random ones, -0.0010 to 0.0010',
      "the agenda's first item gains 1.40 times a random one, less than 1.5",
    ]);
    expect(missedTargets(nothing)).toEqual([]);
  });
});
