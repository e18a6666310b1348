import { agreement, type Agreement } from '#lib/reconcile/agreement/agreement';
import type { Panel, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import { plainMeans } from '#lib/reconcile/panel/plainMean';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import type { Chance, Estimate, Undefined } from '#lib/reconcile/merit/reconciliation';
import type { ReconcileOptions } from './reconcileOptions';

export type Interval = { readonly value: number; readonly low: number; readonly high: number } | Undefined;

/** What the command says about one file. */
export type PanelReport = {
  readonly panel: Readonly<Record<'puppies' | 'evaluators' | 'criteria' | 'scores' | 'missing', number>>;
  readonly merit: readonly {
    readonly puppy: string;
    readonly estimate: number;
    readonly sd: number;
    readonly low: number;
    readonly high: number;
    /** Plain weighted mean of the scores' own quality, on the scale; null when nothing that carries weight was judged. */
    readonly mean: number | null;
    readonly ranks: readonly number[];
  }[];
  readonly better: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly closeCalls: readonly { readonly slot: number; readonly candidates: readonly Chance[] }[];
  readonly evaluators: readonly {
    readonly evaluator: string;
    readonly severity: Interval;
    readonly liking: Interval;
    readonly noise: Interval;
  }[];
  readonly components: Agreement['components'];
  readonly reliability: Agreement['reliability'];
  readonly agreement: {
    readonly sheet: Agreement['sheet'];
    readonly byCriterion: Readonly<Record<string, Omit<Agreement['byCriterion'][string], 'absolute'>>>;
  };
};

const purpose = 'merit';

/** Merit, close calls, evaluators and agreement of one panel, in the words of the command's answer. */
export function panelReport(panel: Panel, options: Pick<ReconcileOptions, 'keep' | 'weights'>): PanelReport {
  const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, options.weights.get(key) ?? 1]));
  const result = reconcile(questionOf(panel, { keep: options.keep, weights }));
  const [found] = result.purposes;
  const means = plainMeans(panel, { key: purpose, weights });
  const { components, reliability, ...agreed } = agreement(panel, weights);
  return {
    panel: counts(panel),
    merit: (found?.merit ?? []).map(({ puppy, estimate, sd, low, high, ranks }) => ({
      puppy,
      estimate,
      sd,
      low,
      high,
      mean: means.get(puppy) ?? null,
      ranks,
    })),
    better: found?.better ?? {},
    closeCalls: result.slots.flatMap(({ close, candidates }, at) => (close ? [{ slot: at + 1, candidates }] : [])),
    components,
    reliability,
    evaluators: result.evaluators.map(({ evaluator, severity, liking, noise }) => ({
      evaluator,
      severity: interval(severity),
      liking: interval(liking),
      noise: interval(noise),
    })),
    agreement: { sheet: agreed.sheet, byCriterion: printed(agreed.byCriterion) },
  };
}

/** What decides the word on the board is no part of the command's answer: its keys stay as they are. */
function printed(byCriterion: Agreement['byCriterion']): PanelReport['agreement']['byCriterion'] {
  return Object.fromEntries(
    Object.entries(byCriterion).map(([criterion, { absolute: _, ...shown }]) => [criterion, shown]),
  );
}

type Asked = { readonly keep: number; readonly weights: Readonly<Record<string, number>> };

function questionOf(panel: Panel, { keep, weights }: Asked): ReconcileQuestion {
  const slots = Array.from({ length: keep }, (_, at) => ({
    key: String(at + 1),
    purpose,
    eligible: panel.puppies,
    picked: null,
  }));
  return { panel, purposes: [{ key: purpose, weights }], slots, looks: [] };
}

function counts({ puppies, evaluators, criteria, scores }: Panel): PanelReport['panel'] {
  const cells = puppies.length * evaluators.length * criteria.length;
  return {
    puppies: puppies.length,
    evaluators: evaluators.length,
    criteria: criteria.length,
    scores: scores.length,
    missing: cells - scores.length,
  };
}

function interval(estimate: Estimate | Undefined): Interval {
  return 'undefined' in estimate ? estimate : { value: estimate.value, low: estimate.low, high: estimate.high };
}
