import { spawnSync } from 'node:child_process';
import type { CrossedScore } from '#lib/stats/crossedComponents';

/** Median milliseconds of the same work in R. */
export type RTimes = { readonly version: string; readonly icc: number; readonly remlComplete: number; readonly remlGaps: number };

/** Runs the work in R, in a process of its own; says what is missing where it cannot. */
export function timeInR(complete: readonly CrossedScore[], gaps: readonly CrossedScore[], table: readonly (readonly number[])[]): RTimes | { readonly missing: string } {
  const run = spawnSync('Rscript', ['--vanilla', '-'], { input: script(complete, gaps, table), encoding: 'utf8', timeout: 300_000 });
  if (run.error) return { missing: 'Rscript is not installed (on Debian: r-base-core, r-cran-lme4, r-cran-psych).' };
  const [version, ...times] = (run.stdout.trim().split('\n').at(-1) ?? '').split('\t');
  const [icc, remlComplete, remlGaps] = times.map(Number);
  if (run.status !== 0 || version === undefined || icc === undefined || remlComplete === undefined || remlGaps === undefined) {
    return { missing: `R stopped: ${run.stderr.trim().split('\n').at(-1) ?? 'no reason given'}` };
  }
  return { version, icc, remlComplete, remlGaps };
}

function script(complete: readonly CrossedScore[], gaps: readonly CrossedScore[], table: readonly (readonly number[])[]): string {
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
