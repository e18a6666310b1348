import { agenda } from '../talk/agenda';
import { cellFlags } from '../talk/cellFlags';
import { drawColumn, drawEstimate, drawSummary } from './drawEstimate';
import { evaluatorResults } from '../seats/evaluatorResults';
import { flags, flagThresholds } from '../talk/flags';
import { createLikingPlaces } from './likingPlaces';
import { lookedDraws, type FoldedDraws } from '../looks/lookedDraws';
import { lookSettings, type LookSettings } from '../looks/lookSettings';
import { meritPriors, type MeritPriors } from './meritPriors';
import type { BesideScores, Panel, PurposeQuestion, ReconcileQuestion } from '../panel/panel';
import type { PanelDesign } from './panelDesign';
import { plainContrasts } from '../panel/plainMean';
import { betterChances, rankChances, type WeightedMerits } from './rankChances';
import type { Merit, PurposeResult, Reconciliation } from './reconciliation';
import { scorePosterior, type ScorePosterior } from './scorePosterior';
import { closeCallThresholds, slotResults, type CloseCallThresholds } from './slotResults';

/** Changes whenever the same question may get other numbers. */
export const ENGINE_VERSION = '9';

export type ReconcileSettings = {
  readonly priors: MeritPriors;
  readonly thresholds: CloseCallThresholds;
  readonly looks: LookSettings;
  /** Values of the SDs weighed, and mirrored pairs of joint draws taken. */
  readonly sampling: { readonly points: number; readonly pairs: number };
};

export const reconcileSettings: ReconcileSettings = {
  priors: meritPriors,
  thresholds: closeCallThresholds,
  looks: lookSettings,
  sampling: { points: 240, pairs: 1250 },
};

/**
 * Merit, ranks, slots and evaluators of one panel by the merit model: y = κ_c + β_j + π_p + (πκ)_pc + (πβ)_pj + (βκ)_jc + ε, y being quality:
 * the score of a one-sided criterion, and a two-sided one's signed degree folded (`foldDegrees`). Of seats told alike in more cells than the panel makes likely (`identicalSeats`)
 * πβ, βκ and ε go together by a correlation of its own, drawn with the SDs: what they repeat of one another counts once.
 * The numbers depend on the data alone; rows and names may come in any order (ST2). Never throws on thin data: what cannot be told
 * is wide, or undefined with a reason (ST1).
 * @param scored for a caller that asks about the same scores several times, with other looks or picks.
 */
export function reconcile(
  question: ReconcileQuestion,
  settings: ReconcileSettings = reconcileSettings,
  scored: ScorePosterior = scorePosterior(question, settings),
): Reconciliation {
  const { design } = scored;
  const watched = watchedCells(question, design);
  const folded = lookedDraws(scored, { ...question, watched, places: createLikingPlaces(design) }, settings);
  return answer(question, { design, folded, watched, thresholds: settings.thresholds });
}

const nothingBeside: BesideScores = { checks: [], stakes: [], freeStances: [] };

/** Places, in the draws, of the cells that are flagged. */
function watchedCells({ panel, beside }: ReconcileQuestion, { puppies, criteria }: PanelDesign): number[] {
  const cells = cellFlags(panel, beside?.freeStances ?? [], flagThresholds).map(
    ({ puppy, criterion }) =>
      criteria.findIndex(({ key }) => key === criterion) * puppies.length + puppies.indexOf(puppy),
  );
  return [...new Set(cells)];
}

type Read = {
  readonly design: PanelDesign;
  readonly folded: FoldedDraws;
  readonly watched: readonly number[];
  readonly thresholds: CloseCallThresholds;
};

function answer(question: ReconcileQuestion, read: Read): Reconciliation {
  const { puppies } = read.design;
  const { draws, weights } = read.folded;
  const meritsOf = (at: number): WeightedMerits => ({
    merits: draws.merits[at] ?? new Float64Array(0),
    weights,
    puppies: puppies.length,
  });
  const byPurpose = new Map(question.purposes.map(({ key }, at): [string, WeightedMerits] => [key, meritsOf(at)]));
  const slots = slotResults(question.slots, {
    puppies,
    byPurpose,
    thresholds: read.thresholds,
    unit: read.design.unit,
  });
  const evaluators = evaluatorResults(question.panel.evaluators, read.design, { draws, weights });
  const beside = question.beside ?? nothingBeside;
  const raised = flags({
    panel: question.panel,
    result: { slots, evaluators },
    checks: beside.checks,
    freeStances: beside.freeStances,
  });
  return {
    engineVersion: ENGINE_VERSION,
    purposes: question.purposes.map((purpose, at) =>
      purposeResult(question.panel, purpose, {
        puppies,
        merits: meritsOf(at),
        level: draws.levels[at] ?? new Float64Array(0),
      }),
    ),
    slots,
    evaluators,
    agenda: agenda(raised, { ...read, byPurpose, slots: question.slots, results: slots, beside }),
    looks: { answers: question.looks.length },
  };
}

function purposeResult(
  panel: Panel,
  purpose: PurposeQuestion,
  read: { readonly puppies: readonly string[]; readonly merits: WeightedMerits; readonly level: Float64Array },
): PurposeResult {
  const { merits, weights, puppies: count } = read.merits;
  const plain = plainContrasts(panel, purpose);
  const ranks = rankChances(read.merits);
  const better = betterChances(read.merits);
  const merit = read.puppies.map((puppy, at): Merit => {
    const { value, ...rest } = drawSummary(drawColumn(merits, count, at), weights);
    return { puppy, estimate: value, ...rest, mean: plain.get(puppy) ?? null, ranks: [...(ranks[at] ?? [])] };
  });
  return {
    key: purpose.key,
    merit: merit.sort((a, b) => b.estimate - a.estimate),
    better: Object.fromEntries(
      read.puppies.map((puppy, row) => [
        puppy,
        Object.fromEntries(
          read.puppies.flatMap((other, column) => (other === puppy ? [] : [[other, better[row]?.[column] ?? 0.5]])),
        ),
      ]),
    ),
    level: drawEstimate(read.level, weights),
  };
}
