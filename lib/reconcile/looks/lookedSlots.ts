import { lookedDraws, type FoldedDraws, type LookedSettings } from './lookedDraws';
import type { LikingPlaces } from '../merit/likingPlaces';
import type { ReconcileQuestion } from '../panel/panel';
import type { WeightedMerits } from '../merit/rankChances';
import type { SlotResult } from '../merit/reconciliation';
import type { ScorePosterior } from '../merit/scorePosterior';
import { slotResults, type CloseCallThresholds } from '../merit/slotResults';

export type LookedSlots = {
  readonly folded: FoldedDraws;
  readonly byPurpose: ReadonlyMap<string, WeightedMerits>;
  /** In the order of the question's slots. */
  readonly slots: readonly SlotResult[];
};

/** The slots as they stand by scores and looks, with the draws they were read from; the same figures as `reconcile` gives. */
export function lookedSlots(
  question: ReconcileQuestion,
  read: { readonly scored: ScorePosterior; readonly places: LikingPlaces },
  settings: LookedSettings & { readonly thresholds: CloseCallThresholds },
): LookedSlots {
  const { puppies } = read.scored.design;
  const folded = lookedDraws(read.scored, { ...question, watched: [], places: read.places }, settings);
  const byPurpose = new Map(
    question.purposes.map(({ key }, at): [string, WeightedMerits] => [
      key,
      { merits: folded.draws.merits[at] ?? new Float64Array(0), weights: folded.weights, puppies: puppies.length },
    ]),
  );
  return {
    folded,
    byPurpose,
    slots: slotResults(question.slots, {
      puppies,
      byPurpose,
      thresholds: settings.thresholds,
      unit: read.scored.design.unit,
    }),
  };
}
