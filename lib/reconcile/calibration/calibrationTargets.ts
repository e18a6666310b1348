import type { LooksVerdict } from './judgeLooks';
import type { ScenarioVerdict } from './judgeScenario';
import type { RankCounts } from './simulationBasedCalibration';

/** What the merit model is held to. */
export const calibrationTargets = {
  /** Mean over the scenarios, and worst scenario, of the mean calibration error. */
  meanError: 0.03,
  worstError: 0.05,
  /** Least p of the evenness of ranks, each quantity. */
  leastP: 0.001,
  /** After second looks answered as the settings say: mean stated chance less how often right. */
  looksExcess: 0.05,
};

/** The targets missed, in words; empty when all are met. */
export function missedTargets(
  scenarios: readonly ScenarioVerdict[],
  ranks: readonly RankCounts[],
  looks: readonly LooksVerdict[],
): string[] {
  const missed: string[] = [];
  const mean = scenarios.reduce((sum, { model }) => sum + model.error, 0) / Math.max(1, scenarios.length);
  if (mean > calibrationTargets.meanError) missed.push(`mean calibration error ${mean.toFixed(3)} is above ${calibrationTargets.meanError}`);
  for (const { scenario, model, ceiling } of scenarios) {
    if (model.error > calibrationTargets.worstError) missed.push(`${scenario.key}: calibration error ${model.error.toFixed(3)} is above ${calibrationTargets.worstError}`);
    const accuracy = ceiling.accuracy - model.accuracy;
    if (accuracy > scenario.shortfall) missed.push(`${scenario.key}: pairs right fall short by ${accuracy.toFixed(3)}, more than ${scenario.shortfall}`);
    const brier = model.brier - ceiling.brier;
    if (brier > scenario.shortfall) missed.push(`${scenario.key}: Brier score is worse by ${brier.toFixed(3)}, more than ${scenario.shortfall}`);
  }
  for (const { quantity, pValue } of ranks) {
    if (pValue <= calibrationTargets.leastP) missed.push(`ranks of ${quantity} are uneven, p ${pValue.toFixed(5)}`);
  }
  for (const { truth, excess } of looks) {
    if (truth === 1 && Math.abs(excess) > calibrationTargets.looksExcess) missed.push(`after second looks stated less right is ${excess.toFixed(3)}`);
  }
  return missed;
}
