import { createSeededRandom, seedFromNumbers, type SeededRandom } from '#lib/stats/seededRandom';
import { chooseLooks, type LookSeat } from '../looks/chooseLooks';
import { conditionalPosterior } from '../merit/conditionalPosterior';
import { createLikingPlaces } from '../merit/likingPlaces';
import { lookedSlots } from '../looks/lookedSlots';
import { lookVerdict } from '../looks/lookVerdict';
import type { LookAnswer, ReconcileQuestion } from '../panel/panel';
import { reconcileSettings, type ReconcileSettings } from '../merit/reconcile';
import type { SlotResult } from '../merit/reconciliation';
import { scorePosterior, type ScorePosterior } from '../merit/scorePosterior';
import { drawnScenario } from './drawnScenario';
import { trueDeviations } from './judgeScenario';
import type { Scenario } from './scenarios';
import { simulatedLook } from './simulatedLook';
import { simulateLitter, type SimulatedLitter } from './simulateLitter';

/** Batches agreed in the simulation. */
const BATCHES = 2;

/** Claimed against right, over a number of stops. */
export type Claims = {
  readonly count: number;
  readonly claimed: number;
  /** The same chance had the SDs been known: what the claim is held to, for it tosses no coin. Its mean less the claim's has the standard error `error`. */
  readonly known: number;
  readonly error: number;
  readonly right: number;
};

/** A mean with its 95% interval. */
export type MeanDifference = { readonly value: number; readonly low: number; readonly high: number };

export type BatchesVerdict = {
  readonly litters: number;
  readonly closeCalls: number;
  readonly pairs: number;
  /** Where the stop rule ended the looks of the chosen batches: the favoured puppy, over all and by how they ended. */
  readonly stops: Claims;
  readonly settled: Claims;
  readonly notSettled: Claims;
  /** Where it said that the candidates are within half a step: that claim, and how often they truly were. */
  readonly equal: Claims;
  /** P(right pick) before any look, and after the batches, chosen or drawn at random from the candidates' pairs. */
  readonly before: number;
  readonly chosen: number;
  readonly random: number;
  /** Chosen less random: of the stated P(right pick), and of the share that was right. */
  readonly difference: MeanDifference;
  readonly rightDifference: MeanDifference;
};

export type BatchesRun = {
  readonly closeCalls: number;
  readonly seed: number;
  /** Pairs in a batch. */
  readonly pairs: number;
  readonly settings?: ReconcileSettings;
};

/** One close call: what it is asked with and who is truly the best. */
type CloseCall = {
  readonly simulated: SimulatedLitter;
  readonly question: ReconcileQuestion;
  readonly scored: ScorePosterior;
  /** The scores' posterior with the true SDs. */
  readonly known: ScorePosterior;
  readonly best: string;
  readonly litter: number;
  /** The slot by the looks taken: both ways often come to the same ones. */
  readonly seen: Map<string, SlotResult>;
};
type Ended = {
  readonly kind: 'settled' | 'equalWithinHalf' | 'notSettled';
  readonly probability: number;
  readonly right: boolean;
  readonly known: number;
  readonly alike: number;
  readonly trulyAlike: boolean;
};

/**
 * Simulates litters until `closeCalls` of their first slots were close, and plays each to its stop twice: with the batches `chooseLooks`
 * proposes, and with as many pairs drawn at random among the slot's candidates. Every seat looks as it scored, its liking carried over; both
 * ways see the same luck at the same look, so that they differ by the choice of pairs.
 */
export function judgeBatches(scenario: Scenario, run: BatchesRun): BatchesVerdict {
  const settings = run.settings ?? reconcileSettings;
  const [chosen, random, before]: [Ended[], Ended[], number[]] = [[], [], []];
  let litter = 0;
  for (; chosen.length < run.closeCalls; litter += 1) {
    const luck = createSeededRandom(seedFromNumbers([run.seed, litter]));
    const drawn = drawnScenario(scenario, luck);
    const simulated = simulateLitter(drawn, luck);
    const question = questionOf(simulated);
    const scored = scorePosterior(question, settings);
    const slot = slotOf(question, scored, settings);
    if (!slot.close) continue;
    const call: CloseCall = {
      simulated,
      question,
      scored,
      known: knownPosterior(drawn, { simulated, scored, settings }),
      litter,
      best: bestOf(simulated),
      seen: new Map(),
    };
    before.push(slot.chances[0]?.probability ?? 0);
    chosen.push(played(call, slot, { ...run, settings, way: 'chosen' }));
    random.push(played(call, slot, { ...run, settings, way: 'random' }));
  }
  const stated = (list: readonly Ended[]) => mean(list.map(({ probability }) => probability));
  const rightly = (ended: Ended | undefined) => (ended?.right ? 1 : 0);
  return {
    litters: litter,
    closeCalls: chosen.length,
    pairs: run.pairs,
    stops: claims(chosen),
    settled: claims(chosen.filter(({ kind }) => kind === 'settled')),
    notSettled: claims(chosen.filter(({ kind }) => kind === 'notSettled')),
    equal: claims(
      chosen
        .filter(({ kind }) => kind === 'equalWithinHalf')
        .map(({ alike, trulyAlike }) => ({ probability: alike, known: alike, right: trulyAlike })),
    ),
    before: mean(before),
    chosen: stated(chosen),
    random: stated(random),
    difference: meanDifference(chosen.map(({ probability }, at) => probability - (random[at]?.probability ?? 0))),
    rightDifference: meanDifference(chosen.map((one, at) => rightly(one) - rightly(random[at]))),
  };
}

/** One-sided criteria only: with folded ones the scores do not follow the model whose SDs these are. */
function knownPosterior(
  scenario: Scenario,
  {
    simulated,
    scored: { design },
    settings,
  }: { readonly simulated: SimulatedLitter; readonly scored: ScorePosterior; readonly settings: ReconcileSettings },
): ScorePosterior {
  const posterior = conditionalPosterior(design, settings.priors)(trueDeviations(scenario, simulated).scores(design));
  return { design, variances: { points: [{ posterior, share: 1 }], effective: 1 } };
}

function questionOf({ panel }: SimulatedLitter): ReconcileQuestion {
  const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
  return {
    panel,
    purposes: [{ key: 'all', weights }],
    slots: [{ key: 'first', purpose: 'all', eligible: panel.puppies, picked: null }],
    looks: [],
  };
}

function slotOf(question: ReconcileQuestion, scored: ScorePosterior, settings: ReconcileSettings): SlotResult {
  const { slots } = lookedSlots(question, { scored, places: createLikingPlaces(scored.design) }, settings);
  return (
    slots[0] ?? {
      key: 'first',
      purpose: 'all',
      chances: [],
      close: false,
      closeBelow: 1,
      alike: 0,
      halfStep: 0,
      candidates: [],
      filledBy: null,
    }
  );
}

function bestOf({ panel, merit }: SimulatedLitter): string {
  return panel.puppies.reduce(
    (best, puppy) => ((merit.get(puppy) ?? 0) > (merit.get(best) ?? 0) ? puppy : best),
    panel.puppies[0] ?? '',
  );
}

type Play = BatchesRun & { readonly settings: ReconcileSettings; readonly way: 'chosen' | 'random' };

function played(call: CloseCall, start: SlotResult, play: Play): Ended {
  const looks: LookAnswer[] = [];
  let slot = start;
  for (let used = 0; ; used += 1) {
    const verdict = lookVerdict(slot, { used, agreed: BATCHES });
    if (verdict.kind !== 'goOn') {
      const [{ puppy, probability } = { puppy: '', probability: 0 }] = verdict.leading;
      const merits = verdict.candidates.map((one) => call.simulated.merit.get(one) ?? 0);
      const known =
        slotOf({ ...call.question, looks }, call.known, play.settings).chances.find((one) => one.puppy === puppy)
          ?.probability ?? 0;
      return {
        kind: verdict.kind,
        probability,
        known,
        right: puppy === call.best,
        alike: verdict.alike,
        trulyAlike: Math.max(...merits) - Math.min(...merits) < verdict.halfStep,
      };
    }
    for (const pair of nextPairs(call, { slot, looks, used }, play))
      looks.push(...answers(call, pair, { play, batch: used }));
    const key = looks
      .map((look) => JSON.stringify(look))
      .sort()
      .join();
    slot = call.seen.get(key) ?? slotOf({ ...call.question, looks }, call.scored, play.settings);
    call.seen.set(key, slot);
  }
}

type Standing = { readonly slot: SlotResult; readonly looks: readonly LookAnswer[]; readonly used: number };

/** Pairs in the panel's own order, so that the same pair is the same look whoever named it. Where there are no more than a batch takes, all are. */
function nextPairs(call: CloseCall, { slot, looks, used }: Standing, play: Play): (readonly [string, string])[] {
  const { puppies } = call.simulated.panel;
  const keys = puppies.filter((puppy) => slot.candidates.some((one) => one.puppy === puppy));
  const all = keys.flatMap((first, at) => keys.slice(at + 1).map((second) => [first, second] as const));
  if (all.length <= play.pairs) return all;
  const pairs =
    play.way === 'chosen'
      ? chosenPairs(call, { ...call.question, looks }, play)
      : randomPairs(all, play.pairs, createSeededRandom(seedFromNumbers([play.seed, call.litter, used])));
  return pairs.map(([one, other]) => (puppies.indexOf(one) < puppies.indexOf(other) ? [one, other] : [other, one]));
}

function chosenPairs(
  { simulated, scored }: CloseCall,
  question: ReconcileQuestion,
  { settings, pairs }: Play,
): (readonly [string, string])[] {
  const seats = simulated.panel.evaluators.map((evaluator): LookSeat => ({ evaluator, except: [] }));
  const batch = chooseLooks(
    question,
    { slot: 'first', medium: 'table', seats, shown: [], most: pairs },
    { settings, scored },
  );
  return 'undefined' in batch ? [] : batch.looks.map(({ first, second }) => [first, second] as const);
}

function randomPairs(
  all: readonly (readonly [string, string])[],
  count: number,
  random: SeededRandom,
): (readonly [string, string])[] {
  const left = [...all];
  return Array.from({ length: count }, () => left.splice(random.below(left.length), 1)).flat();
}

function answers(
  { simulated, litter }: CloseCall,
  pair: readonly [string, string],
  { play, batch }: { readonly play: Play; readonly batch: number },
): LookAnswer[] {
  const { puppies, evaluators } = simulated.panel;
  return evaluators.map((_, seat) => {
    const luck = createSeededRandom(
      seedFromNumbers([play.seed, litter, batch, ...pair.map((puppy) => puppies.indexOf(puppy)), seat]),
    ).normal();
    return simulatedLook(simulated, { pair, seat, luck }, play.settings.looks);
  });
}

function claims(list: readonly Pick<Ended, 'probability' | 'known' | 'right'>[]): Claims {
  const { high, value } = meanDifference(list.map(({ probability, known }) => probability - known));
  return {
    count: list.length,
    claimed: mean(list.map(({ probability }) => probability)),
    known: mean(list.map(({ known }) => known)),
    error: (high - value) / 1.959964,
    right: mean(list.map(({ right }) => (right ? 1 : 0))),
  };
}

function meanDifference(values: readonly number[]): MeanDifference {
  const value = mean(values);
  const variance = values.reduce((sum, one) => sum + (one - value) ** 2, 0) / Math.max(1, values.length - 1);
  const reach = 1.959964 * Math.sqrt(variance / Math.max(1, values.length));
  return { value, low: value - reach, high: value + reach };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}
