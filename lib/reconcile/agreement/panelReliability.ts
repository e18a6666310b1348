import { isUndefined, type CoefficientResult, type Undefined, type UndefinedReason } from '#lib/stats/coefficient';
import { decisionStudy, type StudyComponents } from '#lib/stats/decisionStudy';
import { normalQuantile } from '#lib/stats/normalDistribution';
import { componentNames, type ComponentName, type FittedComponents, type PanelComponents } from './panelComponents';

type Reliability = { readonly relative: CoefficientResult; readonly absolute: CoefficientResult };
export type PanelReliability = Reliability & {
  /** The same with 1, 2, … evaluators, up to three more than there are. */
  readonly study: readonly (Reliability & { readonly evaluators: number })[];
};

/** How many there are of each facet. */
export type FacetCounts = { readonly puppies: number; readonly evaluators: number; readonly criteria: number };

const MORE_EVALUATORS = 3;

/**
 * How dependable the puppies' means over evaluators and criteria are, both facets random: the relative coefficient Eρ² (their order)
 * and dependability Φ (their level), at this design and at other numbers of evaluators. Source: Brennan 2001, chapters 4 and 5.
 * Limits: 95%, delta method on the log of signal over error; none when the puppies show no variance. Undefined when puppies or evaluators
 * cannot be told from the rest; an interaction that cannot counts as 0, for the residual holds it (with one criterion, puppy × evaluator).
 * Worked example: on a complete table of one criterion they are ICC(C,k) and ICC(A,k).
 */
export function panelReliability(fitted: FittedComponents | Undefined, counts: FacetCounts): PanelReliability {
  const at = (evaluators: number) => reliabilityAt(fitted, counts, evaluators);
  const study = Array.from({ length: counts.evaluators + MORE_EVALUATORS }, (_, place) => ({
    evaluators: place + 1,
    ...at(place + 1),
  }));
  return { ...at(counts.evaluators), study };
}

function reliabilityAt(fitted: FittedComponents | Undefined, counts: FacetCounts, evaluators: number): Reliability {
  if (isUndefined(fitted)) return { relative: fitted, absolute: fitted };
  const reason = whyUnknown(fitted.components, counts);
  if (reason !== null) return { relative: { undefined: reason }, absolute: { undefined: reason } };
  const design = { raters: evaluators, criteria: counts.criteria };
  const { relative, absolute } = decisionStudy(studied(fitted.components), design);
  const errorsOf = (components: PanelComponents) => decisionStudy(studied(components), design);
  return {
    relative: withLimits(relative, fitted, (components) => errorsOf(components).relativeError),
    absolute: withLimits(absolute, fitted, (components) => errorsOf(components).absoluteError),
  };
}

function whyUnknown(
  { puppy, evaluator }: PanelComponents,
  { puppies, evaluators }: FacetCounts,
): UndefinedReason | null {
  if (evaluators < 2) return 'one rater';
  if (puppies < 2) return 'fewer than two units';
  return puppy === undefined || evaluator === undefined ? 'too few observations' : null;
}

function studied({
  puppy = 0,
  evaluator = 0,
  criterion = 0,
  puppyEvaluator = 0,
  puppyCriterion = 0,
  evaluatorCriterion = 0,
  residual = 0,
}: PanelComponents): StudyComponents {
  return {
    target: puppy,
    rater: evaluator,
    criterion,
    targetRater: puppyEvaluator,
    targetCriterion: puppyCriterion,
    raterCriterion: evaluatorCriterion,
    residual,
  };
}

/** @param errorOf linear in the components, so that its value for one of them alone is its slope. */
function withLimits(
  share: { readonly value: number } | Undefined,
  { components, covariance }: FittedComponents,
  errorOf: (components: PanelComponents) => number,
): CoefficientResult {
  if (isUndefined(share)) return share;
  const [signal, error] = [components.puppy ?? 0, errorOf(components)];
  // Slopes of log(signal / error); infinite at the boundary, where no limits are given.
  const slope = (name: ComponentName) => (name === 'puppy' ? 1 / signal : -errorOf({ [name]: 1 }) / error);
  const slopes = componentNames.map((name) => ({ name, by: slope(name) }));
  const variance = slopes.reduce(
    (sum, a) => slopes.reduce((inner, b) => inner + a.by * b.by * covariance(a.name, b.name), sum),
    0,
  );
  if (!(signal > 0 && variance > 0 && Number.isFinite(variance))) return { value: share.value, low: null, high: null };
  const reach = normalQuantile(0.975) * Math.sqrt(variance);
  const moved = (by: number) => 1 / (1 + (error / signal) * Math.exp(-by));
  return { value: share.value, low: moved(-reach), high: moved(reach) };
}
