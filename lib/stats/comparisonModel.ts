import { choleskyFactor, choleskyInverse, choleskySolve } from './cholesky';

/**
 * Choices among outcomes o, made `count` times each, with chances exp(η_o) / Σ exp(η): a conditional logit. The
 * log odds η_o = Σ weight · parameter are linear in the parameters, so the log-likelihood is concave in them.
 */
export type ChoiceRecord = {
  readonly outcomes: readonly {
    readonly count: number;
    readonly terms: readonly (readonly [parameter: number, weight: number])[];
  }[];
};

/** The maximum likelihood estimate, its large-sample covariance, and the log-likelihood there. */
export type ChoiceFit = {
  readonly parameters: Float64Array;
  /** Inverse information, row-major. */
  readonly covariance: Float64Array;
  /** Σ count · log probability, no multinomial constants. */
  readonly logLikelihood: number;
};

/**
 * Maximum likelihood for choices whose log odds are linear in `size` parameters, from a start at 0.
 *
 * With chances p_o and term vectors x_o, a record of N choices gives the score Σ n_o x_o − N Σ p_o x_o and the
 * information N (Σ p_o x_o x_oᵀ − x̄ x̄ᵀ), x̄ = Σ p_o x_o. Newton's steps, shortened to at most 4 and halved while
 * they lower the likelihood.
 *
 * Null when the information is singular or 100 steps do not settle: a parameter then has no finite estimate.
 * Source: McFadden 1974, Conditional logit analysis of qualitative choice behavior.
 *
 * @example Three of four choices: log odds log 3, variance 1 / (4 · ¾ · ¼), likelihood 3 log ¾ + log ¼.
 * const record = { outcomes: [{ count: 3, terms: [[0, 1]] }, { count: 1, terms: [] }] }
 * const { parameters, covariance, logLikelihood } = fitChoices([record], 1)
 * [parameters[0], covariance[0], logLikelihood] // [1.0986, 1.3333, -2.2493]
 */
export function fitChoices(records: readonly ChoiceRecord[], size: number): ChoiceFit | null {
  const parameters = new Float64Array(size);
  let at = evaluate(records, parameters);
  for (let step = 0; step < 100; step += 1) {
    const factor = Float64Array.from(at.information);
    if (!choleskyFactor(factor, size)) return null;
    const move = Float64Array.from(at.score);
    choleskySolve(factor, size, move);
    const largest = move.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    let share = Math.min(1, 4 / Math.max(largest, 1e-300));
    let next = evaluate(
      records,
      parameters.map((value, k) => value + share * move[k]),
    );
    while (next.logLikelihood < at.logLikelihood - 1e-12 * Math.abs(at.logLikelihood) && share > 1e-8) {
      share /= 2;
      next = evaluate(
        records,
        parameters.map((value, k) => value + share * move[k]),
      );
    }
    for (let k = 0; k < size; k += 1) parameters[k] = parameters[k] + share * move[k];
    at = next;
    // Nearly separated outcomes leave so little information that rounding keeps the last steps above the first bound.
    if (largest < 1e-10 || (step > 40 && largest < 1e-6))
      return { parameters, covariance: inverseInformation(at.information, size), logLikelihood: at.logLikelihood };
  }
  return null;
}

type Evaluated = { readonly logLikelihood: number; readonly score: Float64Array; readonly information: Float64Array };

function evaluate(records: readonly ChoiceRecord[], parameters: Float64Array): Evaluated {
  const size = parameters.length;
  const score = new Float64Array(size);
  const information = new Float64Array(size * size);
  let logLikelihood = 0;
  for (const { outcomes } of records) {
    const logs = outcomes.map(({ terms }) => terms.reduce((sum, [k, weight]) => sum + weight * parameters[k], 0));
    const most = Math.max(...logs);
    const logTotal = most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
    const trials = outcomes.reduce((sum, { count }) => sum + count, 0);
    const mean = new Float64Array(size);
    outcomes.forEach(({ count, terms }, o) => {
      const log = logs[o] - logTotal;
      const chance = Math.exp(log);
      if (count > 0) logLikelihood += count * log;
      for (const [k, weight] of terms) {
        mean[k] = mean[k] + chance * weight;
        score[k] = score[k] + count * weight;
        for (const [l, other] of terms)
          information[k * size + l] = information[k * size + l] + trials * chance * weight * other;
      }
    });
    for (let k = 0; k < size; k += 1) {
      if (mean[k] === 0) continue;
      score[k] = score[k] - trials * mean[k];
      for (let l = 0; l < size; l += 1)
        information[k * size + l] = information[k * size + l] - trials * mean[k] * mean[l];
    }
  }
  return { logLikelihood, score, information };
}

function inverseInformation(information: Float64Array, size: number): Float64Array {
  const factor = Float64Array.from(information);
  choleskyFactor(factor, size);
  return choleskyInverse(factor, size);
}
