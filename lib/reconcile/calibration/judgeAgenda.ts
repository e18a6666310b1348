import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import { drawColumn } from '../merit/drawEstimate';
import type { JointDraws } from '../merit/jointDraws';
import { createLikingPlaces } from '../merit/likingPlaces';
import { lookedDraws } from '../looks/lookedDraws';
import type { ReconcileQuestion } from '../panel/panel';
import { bestChances, type WeightedMerits } from '../merit/rankChances';
import { reconcile, reconcileSettings, type ReconcileSettings } from '../merit/reconcile';
import type { AgendaItem, Reconciliation } from '../merit/reconciliation';
import { scorePosterior, type ScorePosterior } from '../merit/scorePosterior';
import type { Scenario } from './scenarios';
import { simulateLitter, type SimulatedLitter } from './simulateLitter';

/** Mean gain in P(right pick) of settling an item: as stated beforehand, as stated once it was settled, and in picks that were right. */
type Gains = { readonly stated: number; readonly settled: number; readonly right: number };

export type AgendaVerdict = {
  readonly litters: number;
  /** Litters whose agenda had an item, and two or more. */
  readonly withItems: number;
  readonly withChoice: number;
  readonly first: Gains;
  /** Of an item drawn at random from the same agenda: the mean over its items. */
  readonly random: Gains;
  /** First over random, of what settling brought. */
  readonly ratio: number;
  /** How often each kind came first. */
  readonly leads: Readonly<Record<string, number>>;
};

export type AgendaRun = {
  readonly litters: number;
  readonly seed: number;
  readonly slots: number;
  readonly settings?: ReconcileSettings;
};

type Played = {
  readonly simulated: SimulatedLitter;
  readonly scenario: Scenario;
  readonly question: ReconcileQuestion;
  readonly scored: ScorePosterior;
  readonly settings: ReconcileSettings;
  readonly result: Reconciliation;
  /** The joint draws the agenda was read from, with the cells it names. */
  readonly draws: JointDraws;
  readonly cells: readonly number[];
};

/**
 * Settles every item of every litter's agenda by the truth it was simulated from, in the sense in which its gain is stated: a close call by
 * learning which of its two likeliest puppies is truly the better, a quantity by learning its true value.
 */
export function judgeAgenda(scenario: Scenario, run: AgendaRun): AgendaVerdict {
  const settings = run.settings ?? reconcileSettings;
  const [first, random]: [Gains[], Gains[]] = [[], []];
  const leads: Record<string, number> = {};
  let withChoice = 0;
  for (let litter = 0; litter < run.litters; litter += 1) {
    const simulated = simulateLitter(scenario, createSeededRandom(seedFromNumbers([run.seed, litter])));
    const question = questionOf(simulated, run.slots);
    const scored = scorePosterior(question, settings);
    const result = reconcile(question, settings, scored);
    const cells = result.agenda.flatMap((item) => cellOf(item, scored));
    const { draws } = lookedDraws(
      scored,
      { ...question, watched: cells, places: createLikingPlaces(scored.design) },
      settings,
    );
    const gains = result.agenda.map((item) =>
      settledGain(item, { simulated, scenario, question, scored, settings, result, draws, cells }),
    );
    const [lead] = gains;
    if (!lead) continue;
    const kind = result.agenda[0]?.flag.kind ?? '';
    leads[kind] = (leads[kind] ?? 0) + 1;
    if (gains.length > 1) withChoice += 1;
    first.push(lead);
    random.push(meanGains(gains));
  }
  const [led, drawn] = [meanGains(first), meanGains(random)];
  return {
    litters: run.litters,
    withItems: first.length,
    withChoice,
    first: led,
    random: drawn,
    ratio: led.settled / drawn.settled,
    leads,
  };
}

function questionOf({ panel }: SimulatedLitter, places: number): ReconcileQuestion {
  const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
  const slots = Array.from({ length: places }, (_, at) => ({
    key: `place${at + 1}`,
    purpose: 'all',
    eligible: panel.puppies,
    picked: null,
  }));
  return { panel, purposes: [{ key: 'all', weights }], slots, looks: [] };
}

function cellOf({ flag }: AgendaItem, { design: { criteria, puppies } }: ScorePosterior): number[] {
  return 'criterion' in flag
    ? [criteria.findIndex(({ key }) => key === flag.criterion) * puppies.length + puppies.indexOf(flag.puppy)]
    : [];
}

function settledGain(item: AgendaItem, played: Played): Gains {
  const slot = played.result.slots.find(({ key }) => key === item.slot);
  const eligible = slot?.chances.map(({ puppy }) => puppy) ?? [];
  const { merit } = played.simulated;
  const best = eligible.reduce(
    (most, puppy) => ((merit.get(puppy) ?? 0) > (merit.get(most) ?? 0) ? puppy : most),
    eligible[0] ?? '',
  );
  const now = slot?.chances[0] ?? { puppy: '', probability: 0 };
  const after = item.between ? afterAnswer(item.between, eligible, played) : afterTruth(item, eligible, played);
  return {
    stated: item.gain,
    settled: after.probability - now.probability,
    right: Number(after.puppy === best) - Number(now.puppy === best),
  };
}

/** Keeps the draws in which the two stand as they truly do. */
function afterAnswer(
  [one, other]: readonly [string, string],
  eligible: readonly string[],
  { simulated, scored, draws }: Played,
) {
  const { puppies } = scored.design;
  const merits = draws.merits[0] ?? new Float64Array(0);
  const [first, second] = [puppies.indexOf(one), puppies.indexOf(other)];
  const truly = (simulated.merit.get(one) ?? 0) > (simulated.merit.get(other) ?? 0);
  const kept = Float64Array.from({ length: draws.count }, (_, draw) =>
    (merits[draw * puppies.length + first] ?? 0) > (merits[draw * puppies.length + second] ?? 0) === truly ? 1 : 0,
  );
  return likeliest({ merits, weights: kept, puppies: puppies.length }, eligible, puppies);
}

function likeliest(merits: WeightedMerits, eligible: readonly string[], puppies: readonly string[]) {
  const chances = bestChances(
    merits,
    eligible.map((puppy) => puppies.indexOf(puppy)),
  );
  const top = chances.indexOf(Math.max(...chances));
  return { puppy: eligible[top] ?? '', probability: chances[top] ?? 0 };
}

/** Every draw is moved along its regression on the quantity to the true value, as `quantityGain` does for the values it may take. */
function afterTruth(item: AgendaItem, eligible: readonly string[], played: Played) {
  const {
    scored: { design },
    draws,
    cells,
  } = played;
  const merits: WeightedMerits = {
    merits: draws.merits[0] ?? new Float64Array(0),
    weights: new Float64Array(draws.count).fill(1),
    puppies: design.puppies.length,
  };
  const { flag } = item;
  const values =
    flag.kind === 'oddEvaluator'
      ? drawColumn(draws[flag.by], design.seats.length, design.seats.indexOf(flag.evaluator))
      : flag.kind === 'splitOnPuppy'
        ? drawColumn(draws.general, design.puppies.length, design.puppies.indexOf(flag.puppy))
        : drawColumn(draws.cells, cells.length, cells.indexOf(cellOf(item, played.scored)[0] ?? -1));
  return likeliest({ ...merits, merits: movedTo(values, trueValue(item, played), merits) }, eligible, design.puppies);
}

function trueValue({ flag }: AgendaItem, { simulated, scenario, scored }: Played): number {
  const { panel } = simulated;
  const { unit, rounding } = scored.design;
  if (flag.kind === 'splitOnPuppy') return simulated.general[panel.puppies.indexOf(flag.puppy)] ?? 0;
  if (flag.kind === 'splitOnCriterion' || flag.kind === 'stackAgainstFree') {
    return (
      simulated.quality[panel.criteria.findIndex(({ key }) => key === flag.criterion)]?.[
        panel.puppies.indexOf(flag.puppy)
      ] ?? 0
    );
  }
  if (flag.kind !== 'oddEvaluator') return 0;
  const at = panel.evaluators.indexOf(flag.evaluator);
  if (flag.by === 'severity')
    return (
      unit *
      ((simulated.severity[at] ?? 0) -
        simulated.severity.reduce((sum, one) => sum + one, 0) / simulated.severity.length)
    );
  const seat = scenario.evaluators[at];
  return (
    unit * (flag.by === 'liking' ? (seat?.liking ?? 0) : Math.hypot(seat?.noise ?? 0, Math.sqrt(rounding.oneSided)))
  );
}

function movedTo(values: Float64Array, truth: number, { merits, puppies }: WeightedMerits): Float64Array {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / count;
  const moved = merits.slice();
  for (let puppy = 0; puppy < puppies; puppy += 1) {
    let covariance = 0;
    for (let draw = 0; draw < count; draw += 1) covariance += (values[draw] - mean) * merits[draw * puppies + puppy];
    const slope = variance > 1e-12 ? covariance / count / variance : 0;
    for (let draw = 0; draw < count; draw += 1)
      moved[draw * puppies + puppy] = merits[draw * puppies + puppy] + slope * (truth - values[draw]);
  }
  return moved;
}

function meanGains(list: readonly Gains[]): Gains {
  const mean = (of: (one: Gains) => number) => list.reduce((sum, one) => sum + of(one), 0) / Math.max(1, list.length);
  return { stated: mean((one) => one.stated), settled: mean((one) => one.settled), right: mean((one) => one.right) };
}
