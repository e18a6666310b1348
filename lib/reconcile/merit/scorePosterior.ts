import { createSeededRandom } from '#lib/stats/seededRandom';
import type { MeritPriors } from './meritPriors';
import type { ReconcileQuestion } from '../panel/panel';
import { foldDegrees } from './foldDegrees';
import { panelDesign, type PanelDesign } from './panelDesign';
import { weightedCriteria } from '../panel/purposeWeights';
import { varianceDraws, type VarianceDraws } from './varianceDraws';

/** What the scores alone say: the panel as the model sees it, and values of the SDs with their shares. */
export type ScorePosterior = { readonly design: PanelDesign; readonly variances: VarianceDraws };

export type ScoreSettings = { readonly priors: MeritPriors; readonly sampling: { readonly points: number } };

/** The costly half of a reconciliation: second looks, picks and holds leave it as it is. */
export function scorePosterior(
  { panel, purposes }: Pick<ReconcileQuestion, 'panel' | 'purposes'>,
  { priors, sampling }: ScoreSettings,
): ScorePosterior {
  const design = panelDesign(panel, weightedCriteria(purposes), foldDegrees(priors));
  return {
    design,
    variances: varianceDraws(design, priors, { random: createSeededRandom(design.seed), count: sampling.points }),
  };
}
