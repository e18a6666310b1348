import type { SeededRandom } from '#lib/stats/seededRandom';
import type { Panel, PanelScore } from '../panel/panel';
import { panelSpread, type Scenario, type SimulatedEvaluator } from './scenarios';

export type SimulatedLitter = {
  readonly panel: Panel;
  /** True merit with equal weights, against the litter's mean, in scale points. */
  readonly merit: ReadonlyMap<string, number>;
  /** True severities, by evaluator, in units u. */
  readonly severity: readonly number[];
  /** True likings, by evaluator then puppy, in scale points. */
  readonly liking: readonly (readonly number[])[];
  /** True overall quality of each puppy, in scale points about the litter's. */
  readonly general: readonly number[];
  /** True quality by criterion then puppy, in scale points about the middle of the scale. */
  readonly quality: readonly (readonly number[])[];
};

/** One litter and its scores: true effects drawn, then rounded to whole scores and clipped to the scale. */
export function simulateLitter(scenario: Scenario, random: SeededRandom): SimulatedLitter {
  const normal = (sd: number) => sd * random.normal();
  const unit = (scenario.scale.high - scenario.scale.low) / 6;
  const middle = (scenario.scale.high + scenario.scale.low) / 2;
  const puppies = Array.from({ length: scenario.puppies }, (_, at) => `puppy${at + 1}`);
  const evaluators = scenario.evaluators.map((_, at) => `evaluator${at + 1}`);
  const criteria = Array.from({ length: scenario.criteria }, (_, at) => ({
    key: `criterion${at + 1}`,
    twoSided: at < scenario.twoSided,
  }));
  const general = generalQuality(scenario, random);
  const severity = scenario.evaluators.map((seat) => seat.severity ?? normal(panelSpread.evaluator));
  const liking = scenario.evaluators.map((seat) => puppies.map(() => normal(seat.liking)));
  const isMissed = missedCells(scenario, random);
  const quality = puppies.map(() => 0);
  const cells = criteria.map(() => puppies.map(() => 0));
  const scores: PanelScore[] = [];
  criteria.forEach((criterion, c) => {
    const { level, puppySd, leanSd } = familyOf(scenario, criterion.twoSided, random);
    const own = puppies.map(() => normal(puppySd));
    const lean = scenario.evaluators.map((seat) => normal(leanSd) + (criterion.twoSided ? seat.lean : 0));
    puppies.forEach((puppy, p) => {
      const truth = criterion.twoSided ? level + at(own, p) : level + at(general, p) + at(own, p);
      const cell = criterion.twoSided ? 3 - 2 * Math.abs(truth) : truth;
      quality[p] = at(quality, p) + cell / criteria.length;
      cells[c]?.splice(p, 1, cell * unit);
      scenario.evaluators.forEach((seat, j) => {
        const place = scenario.puppies > 1 ? p / (scenario.puppies - 1) - 0.5 : 0;
        const liked = at(liking[j] ?? [], p);
        const seen = criterion.twoSided
          ? seenDegree(scenario.degrees, { truth, liked, random })
          : truth + at(severity, j) + liked;
        const turned = c >= scenario.criteria - (seat.reversed ?? 0) ? 2 * level - seen : seen;
        const latent = (seat.slope ?? 1) * (turned + at(lean, j) + (seat.drift ?? 0) * place + normal(seat.noise));
        if (isMissed(j, p, c)) return;
        const value = criterion.twoSided
          ? clipped(latent, -3, 3)
          : clipped(middle + unit * latent, scenario.scale.low, scenario.scale.high);
        scores.push({ puppy, evaluator: evaluators[j] ?? '', criterion: criterion.key, value });
      });
    });
  });
  const litter = quality.reduce((sum, value) => sum + value, 0) / quality.length;
  return {
    panel: {
      scale: scenario.scale,
      puppies,
      evaluators,
      criteria,
      scores: givenScores(scores, { scenario, evaluators, random }),
    },
    merit: new Map(puppies.map((puppy, p) => [puppy, (at(quality, p) - litter) * unit])),
    severity,
    liking: liking.map((list) => list.map((value) => value * unit)),
    general: general.map((value) => value * unit),
    quality: cells,
  };
}

/** Puppies' overall quality in units u, of the litter's SD whatever its shape. */
function generalQuality({ puppies, litter, shape }: Scenario, random: SeededRandom): number[] {
  const normals = Array.from({ length: puppies }, () => random.normal());
  if (shape === undefined) return normals.map((value) => litter.puppy * value);
  // A fifth of the variance stays within the clusters; a star stands as far ahead as makes the SD come out.
  const [within, between] = [Math.sqrt(0.2) * litter.puppy, Math.sqrt(0.8) * litter.puppy];
  const ahead = between * Math.sqrt(puppies);
  return normals.map(
    (value, puppy) =>
      within * value + (shape === 'star' ? (puppy === 0 ? ahead : 0) : puppy % 2 === 0 ? between : -between),
  );
}

/** What becomes of the scores on their way to the card: repeated from another seat, or drawn together to three keys. */
function givenScores(
  scores: readonly PanelScore[],
  by: { readonly scenario: Scenario; readonly evaluators: readonly string[]; readonly random: SeededRandom },
): PanelScore[] {
  const { scenario, evaluators, random } = by;
  const cell = ({ puppy, criterion }: PanelScore, evaluator: string) => JSON.stringify([puppy, criterion, evaluator]);
  const own = new Map(scores.map((score) => [cell(score, score.evaluator), score.value]));
  const middle = (scenario.scale.high + scenario.scale.low) / 2;
  const twoSided = new Set(Array.from({ length: scenario.twoSided }, (_, index) => `criterion${index + 1}`));
  return scores.map((score) => {
    const copies = scenario.evaluators[evaluators.indexOf(score.evaluator)]?.copies;
    const heard = copies ? own.get(cell(score, evaluators[copies.seat] ?? '')) : undefined;
    const value = copies && heard !== undefined && random.uniform() < copies.share ? heard : score.value;
    const centre = twoSided.has(score.criterion) ? 0 : middle;
    return { ...score, value: scenario.threeKeys ? centre + Math.max(-1, Math.min(1, value - centre)) : value };
  });
}

function seenDegree(
  degrees: Scenario['degrees'],
  { truth, liked, random }: { readonly truth: number; readonly liked: number; readonly random: SeededRandom },
): number {
  if (degrees === 'liked') return truth - (Math.sign(truth) * liked) / 2;
  return degrees === 'opposite' && random.uniform() < 0.5 ? -truth : truth;
}

function familyOf(scenario: Scenario, twoSided: boolean, random: SeededRandom) {
  if (twoSided) {
    return {
      level: panelSpread.degreeLevel * random.normal(),
      puppySd: scenario.litter.puppyDegree,
      leanSd: panelSpread.evaluatorLean,
    };
  }
  const { mean, sd } = panelSpread.criterionLevel;
  return {
    level: mean + (scenario.raised ?? 0) + sd * random.normal(),
    puppySd: scenario.litter.puppyCriterion,
    leanSd: panelSpread.evaluatorCriterion,
  };
}

function clipped(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, Math.round(value)));
}

function at(list: readonly number[], index: number): number {
  return list[index] ?? 0;
}

function missedCells(
  scenario: Scenario,
  random: SeededRandom,
): (seat: number, puppy: number, criterion: number) => boolean {
  const drawn = scenario.evaluators.map(({ misses }: SimulatedEvaluator) => ({
    puppies: chosen(scenario.puppies, misses.puppies, random),
    criteria: chosen(scenario.criteria, Math.round(misses.criteria * scenario.criteria), random),
    cells: misses.cells,
  }));
  return (seat, puppy, criterion) => {
    const misses = drawn[seat];
    if (!misses) return false;
    const chance = random.uniform() < misses.cells;
    return chance || misses.puppies.has(puppy) || misses.criteria.has(criterion);
  };
}

function chosen(of: number, count: number, random: SeededRandom): ReadonlySet<number> {
  const left = Array.from({ length: of }, (_, index) => index);
  return new Set(Array.from({ length: count }, () => left.splice(random.below(left.length), 1)[0] ?? 0));
}
