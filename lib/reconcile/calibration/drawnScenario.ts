import type { SeededRandom } from '#lib/stats/seededRandom';
import type { Scenario } from './scenarios';

/**
 * The written spread of a scenario's SDs: each is the scenario's times a log-normal factor of median 1, drawn anew for every litter, the seats' with a part
 * that a panel has in common. No prior of the model is so drawn, and none is to be fitted to it.
 */
const writtenSpread = { litter: 0.4, panel: 0.25, seat: 0.25 } as const;

export function drawnScenario(scenario: Scenario, random: SeededRandom): Scenario {
  const factor = (sd: number) => Math.exp(sd * random.normal());
  const { puppy, puppyCriterion, puppyDegree } = scenario.litter;
  const [liking, noise] = [factor(writtenSpread.panel), factor(writtenSpread.panel)];
  return {
    ...scenario,
    litter: {
      puppy: puppy * factor(writtenSpread.litter),
      puppyCriterion: puppyCriterion * factor(writtenSpread.litter),
      puppyDegree: puppyDegree * factor(writtenSpread.litter),
    },
    evaluators: scenario.evaluators.map((seat) => ({
      ...seat,
      liking: seat.liking * liking * factor(writtenSpread.seat),
      noise: seat.noise * noise * factor(writtenSpread.seat),
    })),
  };
}
