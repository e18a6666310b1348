import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import { conditionalPosterior } from '../merit/conditionalPosterior';
import { drawColumn } from '../merit/drawEstimate';
import { jointDraws } from '../merit/jointDraws';
import { noLooks } from '../looks/lookPlan';
import { panelDesign, type PanelDesign } from '../merit/panelDesign';
import { plainContrasts } from '../panel/plainMean';
import { betterChances } from '../merit/rankChances';
import { reconcile, reconcileSettings, type ReconcileSettings } from '../merit/reconcile';
import type { StandardDeviations } from '../merit/varianceParameters';
import { drawnScenario } from './drawnScenario';
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
const NEAR_ZERO = 1e-3;

/** Simulates `litters` litters of a scenario, each with SDs from the written spread, and compares model, known-variance ceiling and plain mean with the truth. */
export function judgeScenario(
  scenario: Scenario,
  run: { readonly litters: number; readonly seed: number; readonly settings?: ReconcileSettings },
): ScenarioVerdict {
  const [model, ceiling, slots]: [Stated[], Stated[], Stated[]] = [[], [], []];
  const first = { model: 0, ceiling: 0, plain: 0 };
  let [plainRight, inside, merits] = [0, 0, 0];
  for (let litter = 0; litter < run.litters; litter += 1) {
    const random = createSeededRandom(seedFromNumbers([run.seed, litter]));
    const drawn = drawnScenario(scenario, random);
    const simulated = simulateLitter(drawn, random);
    const { panel, merit } = simulated;
    const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
    const purpose = { key: 'all', weights };
    const slot = { key: 'first', purpose: 'all', eligible: panel.puppies, picked: null };
    const answer = reconcile(
      { panel, purposes: [purpose], slots: [slot], looks: [] },
      run.settings ?? reconcileSettings,
    );
    const [result] = answer.purposes;
    if (!result) continue;
    const best = bestOf(panel.puppies, (puppy) => merit.get(puppy) ?? 0);
    const known = knownChances(drawn, simulated);
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

/**
 * Best prediction with the true SDs known: linear for one-sided criteria; for two-sided ones, whose degrees are independent of them, linear in
 * d, quality being 3 − 2|d| draw by draw. Where seats see opposite sides it is no ceiling: it knows no sides; where seats repeat one another it takes their likings as tied, as the
 * model does, and their noise as their own.
 */
function knownChances(scenario: Scenario, simulated: SimulatedLitter) {
  const { panel } = simulated;
  const known = trueDeviations(scenario, simulated);
  const [puppies, draws] = [panel.puppies, 2 * CEILING_PAIRS];
  const merits = new Float64Array(draws * puppies.length);
  for (const twoSided of [false, true]) {
    const criteria = panel.criteria
      .filter((criterion) => criterion.twoSided === twoSided)
      .map(({ key }) => ({ key, twoSided: false }));
    if (criteria.length === 0) continue;
    const scores = panel.scores.filter(({ criterion }) => criteria.some(({ key }) => key === criterion));
    const design = panelDesign(
      { ...panel, scale: twoSided ? { low: -3, high: 3 } : panel.scale, criteria, scores },
      new Set(),
      () => [],
    );
    const priors = {
      ...reconcileSettings.priors,
      criterionLevel: twoSided ? reconcileSettings.priors.degreeLevel : reconcileSettings.priors.criterionLevel,
    };
    const posterior = conditionalPosterior(design, priors)(twoSided ? known.degrees(design) : known.scores(design));
    const watched = Array.from({ length: criteria.length * puppies.length }, (_, at) => at);
    const { cells } = jointDraws(
      {
        design,
        priors,
        points: Array.from({ length: CEILING_PAIRS }, () => posterior),
        weights: [],
        plan: noLooks,
        watched,
      },
      createSeededRandom(design.seed + Number(twoSided)),
    );
    design.puppies.forEach((puppy, p) => {
      const place = puppies.indexOf(puppy);
      for (let draw = 0; draw < draws; draw += 1) {
        for (let c = 0; c < criteria.length; c += 1) {
          const value = cells[draw * watched.length + c * puppies.length + p] ?? 0;
          const at = draw * puppies.length + place;
          merits[at] =
            (merits[at] ?? 0) + (twoSided ? 3 - 2 * Math.abs(value) : value / design.unit) / panel.criteria.length;
        }
      }
    });
  }
  const better = betterChances({ merits, weights: new Float64Array(draws).fill(1), puppies: puppies.length });
  const means = puppies.map(
    (_, p) => drawColumn(merits, puppies.length, p).reduce((sum, value) => sum + value, 0) / draws,
  );
  return {
    better: (a: string, b: string) => better[puppies.indexOf(a)]?.[puppies.indexOf(b)] ?? 0.5,
    score: (puppy: string) => means[puppies.indexOf(puppy)] ?? 0,
  };
}

/** The true SDs of the one-sided scores, and of the degrees taken as scores without overall effects; seats in the order of a design. */
export function trueDeviations(scenario: Scenario, { panel, severity }: SimulatedLitter) {
  const ownOf = (design: PanelDesign) =>
    design.seats.map((seat) => scenario.evaluators[panel.evaluators.indexOf(seat)]);
  const leans = scenario.evaluators.map((seat) => seat.lean ** 2);
  const scores = (design: PanelDesign): StandardDeviations => ({
    likingsAlike: false,
    noiseRepeated: 0,
    puppy: scenario.litter.puppy,
    puppyCriterion: scenario.litter.puppyCriterion,
    evaluator: Math.sqrt(severity.reduce((sum, value) => sum + value * value, 0) / severity.length),
    evaluatorCriterion: panelSpread.evaluatorCriterion,
    puppyFolded: 1,
    evaluatorFolded: 1,
    foldedNoise: 1,
    liking: ownOf(design).map((seat) => seat?.liking ?? 1),
    noise: ownOf(design).map((seat) => seat?.noise ?? 1),
  });
  const degrees = (design: PanelDesign): StandardDeviations => ({
    ...scores(design),
    puppy: NEAR_ZERO,
    puppyCriterion: scenario.litter.puppyDegree,
    evaluator: NEAR_ZERO,
    evaluatorCriterion: Math.sqrt(
      panelSpread.evaluatorLean ** 2 + leans.reduce((sum, value) => sum + value, 0) / leans.length,
    ),
    liking: design.seats.map(() => NEAR_ZERO),
  });
  return { scores, degrees };
}
