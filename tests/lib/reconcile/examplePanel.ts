import type { Panel, PanelScore, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import { createSeededRandom } from '#lib/stats/seededRandom';

export type ExampleSize = {
  readonly puppies: number;
  readonly evaluators: number;
  readonly oneSided: number;
  readonly twoSided: number;
  readonly missing: number;
  readonly seed: number;
};

/** A panel of whole scores on 1-7 with a litter, likings and noise of ordinary size. */
export function examplePanel(size: ExampleSize): Panel {
  const random = createSeededRandom(size.seed);
  const named = (kind: string, count: number) => Array.from({ length: count }, (_, at) => `${kind}${at + 1}`);
  const normals = (count: number, sd: number) => Array.from({ length: count }, () => sd * random.normal());
  const criteria = named('criterion', size.oneSided + size.twoSided).map((key, at) => ({
    key,
    twoSided: at >= size.oneSided,
  }));
  const [puppies, evaluators] = [named('puppy', size.puppies), named('seat', size.evaluators)];
  const [general, severity] = [normals(size.puppies, 0.5), normals(size.evaluators, 0.5)];
  const liking = puppies.map(() => normals(size.evaluators, 0.4));
  const scores: PanelScore[] = [];
  for (const { key, twoSided } of criteria) {
    const own = normals(size.puppies, 0.5);
    const lean = normals(size.evaluators, 0.3);
    puppies.forEach((puppy, p) =>
      evaluators.forEach((evaluator, j) => {
        const overall = twoSided ? 0 : 4 + (general[p] ?? 0) + (severity[j] ?? 0) + (liking[p]?.[j] ?? 0);
        const value = Math.round(overall + (own[p] ?? 0) + (lean[j] ?? 0) + 0.7 * random.normal());
        if (random.uniform() < size.missing) return;
        scores.push({
          puppy,
          evaluator,
          criterion: key,
          value: twoSided ? Math.max(-3, Math.min(3, value)) : Math.max(1, Math.min(7, value)),
        });
      }),
    );
  }
  return { scale: { low: 1, high: 7 }, puppies, evaluators, criteria, scores };
}

/** One purpose with equal weights and one slot open to all. */
export function questionOf(panel: Panel): ReconcileQuestion {
  const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
  return {
    panel,
    purposes: [{ key: 'show', weights }],
    slots: [{ key: 'first', purpose: 'show', eligible: panel.puppies, picked: null }],
    looks: [],
  };
}
