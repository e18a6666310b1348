import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import { conditionalPosterior } from '../conditionalPosterior';
import { jointDraws } from '../jointDraws';
import { noLooks } from '../lookPlan';
import { panelDesign, type PanelDesign } from '../panelDesign';
import { plainContrasts } from '../plainMean';
import { purposeWeights } from '../purposeWeights';
import { betterChances } from '../rankChances';
import { reconcile, reconcileSettings, type ReconcileSettings } from '../reconcile';
import type { StandardDeviations } from '../varianceParameters';
import { pairCalibration, type Calibration, type Stated } from './pairCalibration';
import { panelSpread, type Scenario } from './scenarios';
import { simulateLitter, type SimulatedLitter } from './simulateLitter';

export type ScenarioVerdict = {
  readonly scenario: Scenario;
  readonly litters: number;
  readonly model: Calibration;
  /** The same litters with every SD known. */
  readonly ceiling: Calibration;
  readonly plainAccuracy: number;
  /** Share of litters whose best puppy is named. */
  readonly first: { readonly model: number; readonly ceiling: number; readonly plain: number };
  /** Of the first slots: stated chance of the named puppy against its being the best. */
  readonly slotError: number;
  /** Share of true merits inside their 90% interval. */
  readonly coverage: number;
};

const CEILING_PAIRS = 600;

/** Simulates `litters` litters of a scenario and compares model, known-variance ceiling and plain mean with the truth. */
export function judgeScenario(
  scenario: Scenario,
  run: { readonly litters: number; readonly seed: number; readonly settings?: ReconcileSettings },
): ScenarioVerdict {
  const [model, ceiling, slots]: [Stated[], Stated[], Stated[]] = [[], [], []];
  const first = { model: 0, ceiling: 0, plain: 0 };
  let [plainRight, inside, merits] = [0, 0, 0];
  for (let litter = 0; litter < run.litters; litter += 1) {
    const simulated = simulateLitter(scenario, createSeededRandom(seedFromNumbers([run.seed, litter])));
    const { panel, merit } = simulated;
    const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
    const purpose = { key: 'all', weights };
    const slot = { key: 'first', purpose: 'all', eligible: panel.puppies, picked: null };
    const answer = reconcile({ panel, purposes: [purpose], slots: [slot], looks: [] }, run.settings ?? reconcileSettings);
    const [result] = answer.purposes;
    if (!result) continue;
    const best = bestOf(panel.puppies, (puppy) => merit.get(puppy) ?? 0);
    const known = knownChances(scenario, simulated);
    const plain = plainContrasts(panel, purpose);
    forPairs(panel.puppies, (a, b) => {
      const right = (merit.get(a) ?? 0) > (merit.get(b) ?? 0);
      model.push({ chance: result.better[a]?.[b] ?? 0.5, right });
      ceiling.push({ chance: known.better(a, b), right });
      const gap = (plain.get(a) ?? 0) - (plain.get(b) ?? 0);
      plainRight += gap === 0 ? 0.5 : gap > 0 === right ? 1 : 0;
    });
    first.model += result.merit[0]?.puppy === best ? 1 : 0;
    first.ceiling += bestOf(panel.puppies, known.score) === best ? 1 : 0;
    first.plain += bestOf(panel.puppies, (puppy) => plain.get(puppy) ?? -Infinity) === best ? 1 : 0;
    const named = answer.slots[0]?.chances[0];
    if (named) slots.push({ chance: named.probability, right: named.puppy === best });
    for (const each of result.merit) {
      merits += 1;
      const truth = merit.get(each.puppy) ?? 0;
      if (truth >= each.low && truth <= each.high) inside += 1;
    }
  }
  const share = (count: number) => count / run.litters;
  return {
    scenario,
    litters: run.litters,
    model: pairCalibration(model),
    ceiling: pairCalibration(ceiling),
    plainAccuracy: plainRight / model.length,
    first: { model: share(first.model), ceiling: share(first.ceiling), plain: share(first.plain) },
    slotError: slots.reduce((sum, { chance, right }) => sum + chance - (right ? 1 : 0), 0) / slots.length,
    coverage: inside / merits,
  };
}

function bestOf(puppies: readonly string[], score: (puppy: string) => number): string {
  return puppies.reduce((best, puppy) => (score(puppy) > score(best) ? puppy : best), puppies[0] ?? '');
}

function forPairs(puppies: readonly string[], visit: (a: string, b: string) => void): void {
  puppies.forEach((a, at) => puppies.slice(at + 1).forEach((b) => visit(a, b)));
}

/** Best prediction with the true SDs known (linear but for |d|). */
function knownChances(scenario: Scenario, simulated: SimulatedLitter) {
  const { panel } = simulated;
  const design = panelDesign(panel, new Set());
  const posterior = conditionalPosterior(design, reconcileSettings.priors)(trueDeviations(scenario, simulated, design));
  const weights = purposeWeights(design.criteria, { key: 'all', weights: Object.fromEntries(panel.criteria.map(({ key }) => [key, 1])) });
  const points = Array.from({ length: CEILING_PAIRS }, () => posterior);
  const plan = noLooks;
  const draws = jointDraws({ design, priors: reconcileSettings.priors, points, weights: [weights], plan, watched: [] }, createSeededRandom(design.seed));
  const merits = draws.merits[0] ?? new Float64Array(0);
  const puppies = design.puppies.length;
  const better = betterChances({ merits, weights: new Float64Array(draws.count).fill(1), puppies });
  const place = new Map(design.puppies.map((puppy, at) => [puppy, at]));
  const means = design.puppies.map((_, puppy) => {
    let sum = 0;
    for (let draw = 0; draw < draws.count; draw += 1) sum += merits[draw * puppies + puppy] ?? 0;
    return sum / draws.count;
  });
  return {
    better: (a: string, b: string) => better[place.get(a) ?? -1]?.[place.get(b) ?? -1] ?? 0.5,
    score: (puppy: string) => means[place.get(puppy) ?? -1] ?? 0,
  };
}

function trueDeviations(scenario: Scenario, { panel, severity }: SimulatedLitter, design: PanelDesign): StandardDeviations {
  const own = design.seats.map((seat) => scenario.evaluators[panel.evaluators.indexOf(seat)]);
  const leans = scenario.evaluators.map((seat) => seat.lean ** 2);
  return {
    likingsAlike: false,
    puppy: scenario.litter.puppy,
    puppyCriterion: scenario.litter.puppyCriterion,
    evaluator: Math.sqrt(severity.reduce((sum, value) => sum + value * value, 0) / severity.length),
    evaluatorCriterion: panelSpread.evaluatorCriterion,
    puppyDegree: scenario.litter.puppyDegree,
    evaluatorLean: Math.sqrt(panelSpread.evaluatorLean ** 2 + leans.reduce((sum, value) => sum + value, 0) / leans.length),
    degreeNoise: 1,
    liking: own.map((seat) => seat?.liking ?? 1),
    noise: own.map((seat) => seat?.noise ?? 1),
  };
}
