import type { LookSettings } from '../looks/lookSettings';
import type { LookAnswer } from '../panel/panel';
import type { SimulatedLitter } from './simulateLitter';

export type LookEvent = {
  readonly pair: readonly [string, string];
  /** Place of the seat among the evaluators. */
  readonly seat: number;
  /** Standard normal: what the seat happens to see beyond merit and its liking. */
  readonly luck: number;
};

/** What a seat answers whose liking for each puppy is the one its scores had (carried over), by the true settings of a look. */
export function simulatedLook(
  { panel, merit, liking }: SimulatedLitter,
  { pair, seat, luck }: LookEvent,
  truth: LookSettings,
): LookAnswer {
  const unit = (panel.scale.high - panel.scale.low) / 6;
  const seen = (puppy: string) =>
    (merit.get(puppy) ?? 0) + truth.carryOver * (liking[seat]?.[panel.puppies.indexOf(puppy)] ?? 0);
  const [first, second] = pair;
  const gap = (seen(first) - seen(second)) / unit + truth.noise * luck;
  const choice = Math.abs(gap) < truth.tieHalfWidth ? 'tie' : gap > 0 ? 'first' : 'second';
  return { evaluator: panel.evaluators[seat] ?? '', purpose: 'all', first, second, choice };
}
