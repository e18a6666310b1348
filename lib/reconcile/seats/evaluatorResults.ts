import { drawColumn, drawEstimate } from '../merit/drawEstimate';
import type { JointDraws } from '../merit/jointDraws';
import type { PanelDesign } from '../merit/panelDesign';
import type { Estimate, EvaluatorResult, Undefined } from '../merit/reconciliation';

const LEAST_PUPPIES = 2;
const LEAST_CRITERIA = 2;

/** Severity, liking and noise of every evaluator asked about, those without scores included; reasons where data cannot tell. */
export function evaluatorResults(
  evaluators: readonly string[],
  design: PanelDesign,
  read: { readonly draws: JointDraws; readonly weights: Float64Array },
): EvaluatorResult[] {
  const seats = design.seats.length;
  return evaluators.map((evaluator) => {
    const seat = design.seats.indexOf(evaluator);
    const estimate = (table: Float64Array): Estimate => drawEstimate(drawColumn(table, seats, seat), read.weights);
    const or = (reason: string | null, table: Float64Array): Estimate | Undefined =>
      reason === null ? estimate(table) : { undefined: reason };
    const reasons = { liking: likingReason(design, seat), noise: noiseReason(design, seat) };
    const standing = (kind: 'liking' | 'noise') =>
      reasons[kind] === null ? standsOut(read.draws[kind], { seats, seat, weights: read.weights }) : 0;
    return {
      evaluator,
      severity: or(severityReason(design, seat), read.draws.severity),
      liking: or(reasons.liking, read.draws.liking),
      noise: or(reasons.noise, read.draws.noise),
      standsOut: { liking: standing('liking'), noise: standing('noise') },
    };
  });
}

/** Larger by this factor is more than seats that are alike show by chance alone. */
const CLEARLY = 1.25;

/** Share of the draws in which this seat's SD is clearly larger than that of each other seat; 0 for a seat alone. */
function standsOut(
  table: Float64Array,
  { seats, seat, weights }: { readonly seats: number; readonly seat: number; readonly weights: Float64Array },
): number {
  if (seats < 2) return 0;
  let [out, all] = [0, 0];
  for (let draw = 0; draw < weights.length; draw += 1) {
    const own = table[draw * seats + seat];
    let most = 0;
    for (let other = 0; other < seats; other += 1)
      if (other !== seat) most = Math.max(most, table[draw * seats + other]);
    all += weights[draw];
    if (own > CLEARLY * most) out += weights[draw];
  }
  return out / all;
}

function severityReason(design: PanelDesign, seat: number): string | null {
  if (seat < 0) return 'this seat gave no scores';
  if (design.seats.length < 2) return 'one seat alone has nobody to be compared with';
  if (pairsOf(design, seat) === 0) return 'this seat gave no scores';
  return null;
}

function likingReason(design: PanelDesign, seat: number): string | null {
  const reason = severityReason(design, seat);
  if (reason !== null) return reason;
  if (pairsOf(design, seat) < LEAST_PUPPIES) return 'a liking shows only across two puppies or more';
  return null;
}

function noiseReason(design: PanelDesign, seat: number): string | null {
  if (seat < 0) return 'this seat gave no scores';
  if (design.seats.length < 2) return 'one seat alone has nobody to be compared with';
  const tables = [...design.oneSided, ...design.folded].filter((pattern) => pattern.seats.includes(seat));
  const criteria = tables.reduce((sum, pattern) => sum + pattern.criteria.length, 0);
  const puppies = new Set(
    tables.flatMap((pattern) => [...pattern.puppies].filter((_, cell) => pattern.seats[cell] === seat)),
  );
  if (criteria < LEAST_CRITERIA || puppies.size < LEAST_PUPPIES)
    return 'noise shows only across two criteria and two puppies or more';
  return null;
}

function pairsOf(design: PanelDesign, seat: number): number {
  return design.pairs.seats.reduce((sum, other) => sum + (other === seat ? 1 : 0), 0);
}
