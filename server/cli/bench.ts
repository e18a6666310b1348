import { spawnSync } from 'node:child_process';
import { parseArgs } from 'node:util';
import { agreement } from '#lib/reconcile/agreement/agreement';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import type { Panel, ReconcileQuestion } from '#lib/reconcile/panel/panel';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { coefficientInterval } from '#lib/stats/coefficientInterval';
import { crossedComponents, type CrossedScore } from '#lib/stats/crossedComponents';
import { intraclassCorrelations } from '#lib/stats/intraclassCorrelation';
import { resampledAlpha } from '#lib/stats/krippendorffAlpha';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { type CliOutput, processOutput, textColumns } from './cliOutput';

export type BenchLine = {
  readonly work: string;
  /** Median over the runs, milliseconds. */
  readonly ms: number;
  /** What it must stay within, where there is a goal. */
  readonly goalMs: number | null;
  /** The same work in R in the same run, and how many times as long it took; null where R has no such work or is missing. */
  readonly rMs: number | null;
  readonly ratio: number | null;
};

/**
 * Times the engine on fixed designs, and the same work in R where Rscript with lme4 and psych
 * is there: `bench [--json] [--once]`; once does each work a single time, cold, to see that it runs.
 */
export function benchCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  const { json, once } = parseArgs({
    args: [...args],
    options: { json: { type: 'boolean', default: false }, once: { type: 'boolean', default: false } },
  }).values;
  const r = timeInR(crossedScores(0), crossedScores(0.15), alphaTable());
  const lines = benchLines('missing' in r ? null : r, once);
  if (json)
    output.answer(JSON.stringify({ lines, r: 'missing' in r ? { missing: r.missing } : { version: r.version } }));
  else {
    textColumns([['work', 'ms', 'goal', 'in R', 'ratio'], ...lines.map(cells)]).forEach(output.answer);
    output.answer(
      'missing' in r ? `No comparison with R: ${r.missing}` : `Compared with ${r.version} in the same run.`,
    );
  }
  return Promise.resolve(0);
}

function benchLines(r: RTimes | null, once: boolean): BenchLine[] {
  const line = (work: string, timed: Timed, rMs: number | null) =>
    timedLine(work, once ? { ...timed, warmUps: 0, runs: 1 } : { ...timed, warmUps: 2 }, rMs);
  const question = litterQuestion();
  const gapped = withoutTenth(question);
  const table = alphaTable();
  const [complete, gaps] = [crossedScores(0), crossedScores(0.15)];
  return [
    line(
      'merit, ranks, places and agenda, 10 x 5 x 22',
      { goalMs: 500, runs: 7, work: () => reconcile(question) },
      null,
    ),
    line(
      'merit, ranks, places and agenda, 10 x 5 x 22, 10% missing',
      { goalMs: 500, runs: 7, work: () => reconcile(gapped) },
      null,
    ),
    line(
      'all coefficients with intervals, 10 x 5 x 22',
      { goalMs: 1000, runs: 5, work: () => agreement(question.panel) },
      null,
    ),
    line(
      'interval and ordinal alpha, 2,000 draws each, 10 x 5',
      {
        goalMs: 40,
        runs: 21,
        work: () =>
          (['interval', 'ordinal'] as const).map((metric) => coefficientInterval(resampledAlpha(table, metric), table)),
      },
      null,
    ),
    line(
      'six intraclass correlations, 10 x 5',
      { goalMs: null, runs: 21, work: () => intraclassCorrelations(table) },
      r?.icc ?? null,
    ),
    line(
      'REML, six components, 10 x 5 x 15',
      { goalMs: null, runs: 15, work: () => crossedComponents(complete) },
      r?.remlComplete ?? null,
    ),
    line(
      'REML, six components, 10 x 5 x 15, 15% missing',
      { goalMs: null, runs: 15, work: () => crossedComponents(gaps) },
      r?.remlGaps ?? null,
    ),
  ];
}

type Timed = { readonly goalMs: number | null; readonly runs: number; readonly work: () => unknown };

/** Runs that warm the code up do not count. */
function timedLine(work: string, timed: Timed & { readonly warmUps: number }, rMs: number | null): BenchLine {
  const times = Array.from({ length: timed.warmUps + timed.runs }, () => {
    const started = performance.now();
    timed.work();
    return performance.now() - started;
  }).slice(timed.warmUps);
  const ms = times.toSorted((a, b) => a - b)[Math.floor(timed.runs / 2)] ?? Number.NaN;
  return { work, ms, goalMs: timed.goalMs, rMs, ratio: rMs === null ? null : rMs / ms };
}

function cells({ work, ms, goalMs, rMs, ratio }: BenchLine): string[] {
  return [
    work,
    ms.toFixed(1),
    goalMs === null ? '' : `<= ${goalMs}`,
    rMs === null ? '' : rMs.toFixed(1),
    ratio === null ? '' : ratio.toFixed(1),
  ];
}

/** Ten puppies, five evaluators, 22 criteria of which 15 two-sided, as on the full sheet. */
function litterQuestion(): ReconcileQuestion {
  const [plain] = scenarios;
  if (!plain) throw new Error('there is no plain scenario');
  const [ordinary] = plain.evaluators;
  if (!ordinary) throw new Error('the plain scenario has no evaluator');
  const scenario = {
    ...plain,
    puppies: 10,
    criteria: 22,
    twoSided: 15,
    evaluators: Array.from({ length: 5 }, () => ordinary),
  };
  const panel: Panel = simulateLitter(scenario, createSeededRandom(10_522)).panel;
  const weights = Object.fromEntries(panel.criteria.map(({ key }) => [key, 1]));
  const purposes = [{ key: 'keep', weights }];
  const slots = ['first', 'second', 'third'].map((key) => ({
    key,
    purpose: 'keep',
    eligible: panel.puppies,
    picked: null,
  }));
  return { panel, purposes, slots, looks: [] };
}

/** A tenth of the cells gone at random, so that nearly every criterion is judged in cells of its own. */
function withoutTenth(question: ReconcileQuestion): ReconcileQuestion {
  const random = createSeededRandom(10_523);
  return {
    ...question,
    panel: { ...question.panel, scores: question.panel.scores.filter(() => random.uniform() >= 0.1) },
  };
}

/** A fixed 10 x 5 x 15 table with all six components, a share of its cells missing. */
function crossedScores(missing: number): CrossedScore[] {
  const random = createSeededRandom(10_515);
  const draw = (count: number, sd: number) => Array.from({ length: count }, () => sd * random.normal());
  const [target, rater, criterion] = [draw(10, 0.8), draw(5, 0.6), draw(15, 0.5)];
  const [targetRater, targetCriterion, raterCriterion] = [draw(50, 0.4), draw(150, 0.5), draw(75, 0.3)];
  const scores: CrossedScore[] = [];
  for (let t = 0; t < 10; t += 1)
    for (let j = 0; j < 5; j += 1)
      for (let c = 0; c < 15; c += 1) {
        const main = (target[t] ?? 0) + (rater[j] ?? 0) + (criterion[c] ?? 0);
        const crossed =
          (targetRater[t * 5 + j] ?? 0) + (targetCriterion[t * 15 + c] ?? 0) + (raterCriterion[j * 15 + c] ?? 0);
        const value = 4 + main + crossed + 0.7 * random.normal();
        if (random.uniform() >= missing) scores.push({ target: t, rater: j, criterion: c, value });
      }
  return scores;
}

/** Ten units by five raters, whole scores 1 to 7. */
function alphaTable(): number[][] {
  const random = createSeededRandom(105);
  return Array.from({ length: 10 }, () => {
    const level = 4 + random.normal();
    return Array.from({ length: 5 }, () => Math.min(7, Math.max(1, Math.round(level + 0.8 * random.normal()))));
  });
}

/** Median milliseconds of the same work in R. */
type RTimes = {
  readonly version: string;
  readonly icc: number;
  readonly remlComplete: number;
  readonly remlGaps: number;
};

/** Runs the work in R, in a process of its own; says what is missing where it cannot. */
function timeInR(
  complete: readonly CrossedScore[],
  gaps: readonly CrossedScore[],
  table: readonly (readonly number[])[],
): RTimes | { readonly missing: string } {
  const run = spawnSync('Rscript', ['--vanilla', '-'], {
    input: script(complete, gaps, table),
    encoding: 'utf8',
    timeout: 300_000,
  });
  if (run.error) return { missing: 'Rscript is not installed (on Debian: r-base-core, r-cran-lme4, r-cran-psych).' };
  const [version, ...times] = (run.stdout.trim().split('\n').at(-1) ?? '').split('\t');
  const [icc, remlComplete, remlGaps] = times.map(Number);
  if (
    run.status !== 0 ||
    version === undefined ||
    icc === undefined ||
    remlComplete === undefined ||
    remlGaps === undefined
  ) {
    return { missing: `R stopped: ${run.stderr.trim().split('\n').at(-1) ?? 'no reason given'}` };
  }
  return { version, icc, remlComplete, remlGaps };
}

function script(
  complete: readonly CrossedScore[],
  gaps: readonly CrossedScore[],
  table: readonly (readonly number[])[],
): string {
  return `
suppressMessages({library(lme4); library(psych)})
time <- function(work, runs) { work(); median(sapply(seq_len(runs), function(i) { s <- proc.time()[["elapsed"]]; for (k in 1:3) work(); (proc.time()[["elapsed"]] - s) / 3 })) * 1000 }
fit <- function(d) function() suppressWarnings(suppressMessages(lmer(y ~ 1 + (1|t) + (1|r) + (1|c) + (1|t:r) + (1|t:c) + (1|r:c), data = d)))
complete <- ${frame(complete)}
gaps <- ${frame(gaps)}
ratings <- matrix(c(${table.flat().join(',')}), nrow = ${table.length}, byrow = TRUE)
icc <- time(function() suppressWarnings(suppressMessages(ICC(ratings, lmer = FALSE))), 5)
cat(paste(paste0(R.version.string, ", lme4 ", packageVersion("lme4"), ", psych ", packageVersion("psych")), icc, time(fit(complete), 5), time(fit(gaps), 5), sep = "\\t"), "\\n")
`;
}

function frame(scores: readonly CrossedScore[]): string {
  const column = (of: (score: CrossedScore) => string | number) => `c(${scores.map(of).join(',')})`;
  return `data.frame(t = factor(${column((s) => s.target)}), r = factor(${column((s) => s.rater)}), c = factor(${column((s) => s.criterion)}), y = ${column((s) => s.value)})`;
}
