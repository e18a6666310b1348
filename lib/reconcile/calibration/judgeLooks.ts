import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import type { LookSettings } from '../looks/lookSettings';
import { reconcile, reconcileSettings } from '../merit/reconcile';
import { pairCalibration, type Calibration, type Stated } from './pairCalibration';
import type { Scenario } from './scenarios';
import { scorePosterior } from '../merit/scorePosterior';
import { simulatedLook } from './simulatedLook';
import { simulateLitter } from './simulateLitter';

export type LooksVerdict = {
  /** How many times the settings' the true look noise and tie half-width are. */
  readonly truth: number;
  readonly litters: number;
  readonly before: Calibration;
  readonly after: Calibration;
  /** Mean stated chance of the favoured puppy, less how often it was right: above zero is overconfident. */
  readonly excess: number;
};

/** Every seat looks once at each pair of the three likeliest puppies; stated chances after the looks against the truth. */
export function judgeLooks(
  scenario: Scenario,
  run: { readonly litters: number; readonly seed: number; readonly truth: number },
): LooksVerdict {
  const [before, after]: [Stated[], Stated[]] = [[], []];
  for (let litter = 0; litter < run.litters; litter += 1) {
    const random = createSeededRandom(seedFromNumbers([run.seed, litter]));
    const simulated = simulateLitter(scenario, random);
    const { panel, merit } = simulated;
    const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
    const question = {
      panel,
      purposes: [{ key: 'all', weights }],
      slots: [{ key: 'first', purpose: 'all', eligible: panel.puppies, picked: null }],
      looks: [],
    };
    const posterior = scorePosterior(question, reconcileSettings);
    const scored = reconcile(question, reconcileSettings, posterior);
    const [a = '', b = '', c = ''] = scored.slots[0]?.chances.map(({ puppy }) => puppy) ?? [];
    const pairs = [
      [a, b],
      [a, c],
      [b, c],
    ] as const;
    const truth: LookSettings = {
      ...reconcileSettings.looks,
      noise: reconcileSettings.looks.noise * run.truth,
      tieHalfWidth: reconcileSettings.looks.tieHalfWidth * run.truth,
    };
    const looks = pairs.flatMap((pair) =>
      panel.evaluators.map((_, seat) => simulatedLook(simulated, { pair, seat, luck: random.normal() }, truth)),
    );
    const looked = reconcile({ ...question, looks }, reconcileSettings, posterior);
    for (const [first, second] of pairs) {
      const right = (merit.get(first) ?? 0) > (merit.get(second) ?? 0);
      before.push({ chance: scored.purposes[0]?.better[first]?.[second] ?? 0.5, right });
      after.push({ chance: looked.purposes[0]?.better[first]?.[second] ?? 0.5, right });
    }
  }
  const judged = pairCalibration(after);
  const excess = judged.bins.reduce((sum, bin) => sum + bin.count * (bin.stated - bin.observed), 0) / after.length;
  return { truth: run.truth, litters: run.litters, before: pairCalibration(before), after: judged, excess };
}
