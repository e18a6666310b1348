import type { AgendaVerdict } from './judgeAgenda';
import type { BatchesVerdict, Claims } from './judgeBatches';
import type { LooksVerdict } from './judgeLooks';
import type { ScenarioVerdict } from './judgeScenario';
import type { RankCounts } from './simulationBasedCalibration';

/** What the merit model is held to. */
export const calibrationTargets = {
  /** Mean over the scenarios, and worst scenario, of the mean calibration error. */
  meanError: 0.02,
  worstError: 0.04,
  /** Least p of the evenness of ranks, each quantity. */
  leastP: 0.001,
  /** After second looks answered as the settings say: mean stated chance less how often right. */
  looksExcess: 0.05,
  /** Where the stop rule ended second looks: claimed probability against the chance under known SDs; and the standard error that has to be reached to say so. */
  stopsGap: 0.015,
  stopsError: 0.005,
  /** Gain of settling the first item of the agenda over that of one drawn at random. */
  agendaRatio: 1.5,
};

export type CalibrationVerdicts = {
  readonly scenarios: readonly ScenarioVerdict[];
  readonly ranks: readonly RankCounts[];
  readonly looks: readonly LooksVerdict[];
  readonly batches: readonly BatchesVerdict[];
  readonly agendas: readonly AgendaVerdict[];
};

/** The targets missed, in words; empty when all are met. */
export function missedTargets({ scenarios, ranks, looks, batches, agendas }: CalibrationVerdicts): string[] {
  return [
    ...missedByScenarios(scenarios),
    ...missedByRanks(ranks),
    ...missedByLooks(looks),
    ...batches.flatMap(missedByBatches),
    ...agendas.flatMap(missedByAgenda),
  ];
}

function missedByScenarios(scenarios: readonly ScenarioVerdict[]): string[] {
  const missed: string[] = [];
  const mean = scenarios.reduce((sum, { model }) => sum + model.error, 0) / Math.max(1, scenarios.length);
  if (mean > calibrationTargets.meanError)
    missed.push(`mean calibration error ${mean.toFixed(3)} is above ${calibrationTargets.meanError}`);
  for (const { scenario, model, ceiling } of scenarios) {
    if (!scenario.unseen && model.error > calibrationTargets.worstError)
      missed.push(
        `${scenario.key}: calibration error ${model.error.toFixed(3)} is above ${calibrationTargets.worstError}`,
      );
    const accuracy = ceiling.accuracy - model.accuracy;
    if (accuracy > scenario.shortfall)
      missed.push(`${scenario.key}: pairs right fall short by ${accuracy.toFixed(3)}, more than ${scenario.shortfall}`);
    const brier = model.brier - ceiling.brier;
    if (brier > scenario.shortfall)
      missed.push(`${scenario.key}: Brier score is worse by ${brier.toFixed(3)}, more than ${scenario.shortfall}`);
  }
  return missed;
}

function missedByRanks(ranks: readonly RankCounts[]): string[] {
  return ranks.flatMap(({ quantity, pValue }) =>
    pValue <= calibrationTargets.leastP ? [`ranks of ${quantity} are uneven, p ${pValue.toFixed(5)}`] : [],
  );
}

function missedByLooks(looks: readonly LooksVerdict[]): string[] {
  return looks.flatMap(({ truth, excess }) =>
    truth === 1 && Math.abs(excess) > calibrationTargets.looksExcess
      ? [`after second looks stated less right is ${excess.toFixed(3)}`]
      : [],
  );
}

function missedByBatches({ pairs, stops, difference }: BatchesVerdict): string[] {
  const missed: string[] = [];
  const gap = ({ claimed, known }: Claims) => claimed - known;
  if (Math.abs(gap(stops)) > calibrationTargets.stopsGap)
    missed.push(`batches of ${pairs}: claimed less known chance at the stop is ${gap(stops).toFixed(3)}`);
  if (stops.error > calibrationTargets.stopsError)
    missed.push(`batches of ${pairs}: the gap at the stop has a standard error of ${stops.error.toFixed(4)}`);
  if (!(difference.low > 0))
    missed.push(
      `batches of ${pairs}: chosen pairs gain no more than random ones, ${difference.low.toFixed(4)} to ${difference.high.toFixed(4)}`,
    );
  return missed;
}

function missedByAgenda({ ratio }: AgendaVerdict): string[] {
  return ratio >= calibrationTargets.agendaRatio
    ? []
    : [
        `the agenda's first item gains ${ratio.toFixed(2)} times a random one, less than ${calibrationTargets.agendaRatio}`,
      ];
}
