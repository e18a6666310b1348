import type { RobustnessView } from '../contract/boardView';
import type { PurposeKey } from '../contract/setup';
import type { Snapshot } from '../contract/snapshot';
import type { Reconciliation } from '#lib/reconcile/merit/reconciliation';
import type { Robustness } from '#lib/reconcile/merit/robustness';
import { priorsSentence, settlingSentence, withoutSentence } from '../reconcile/sentences/robustnessSentences';

type RevealedRobustness = {
  readonly snapshot: Snapshot;
  readonly reconciliation: Pick<Reconciliation, 'purposes' | 'slots'>;
  readonly robustness: Pick<Robustness, 'priors' | 'without' | 'settling'>;
  readonly anonymous: boolean;
};

const purposeNames: Readonly<Record<PurposeKey, string>> = {
  keep: 'a keep',
  working: 'a working home',
  companion: 'a companion home',
};

/** What else the numbers might have been, in sentences. An anonymous panel is told nothing of single seats (BL9). */
export function robustnessView({
  snapshot,
  reconciliation,
  robustness,
  anonymous,
}: RevealedRobustness): RobustnessView {
  const names = Object.fromEntries([
    ...snapshot.puppies.map((puppy) => [puppy.id, puppy.name] as const),
    ...snapshot.seats.map((seat) => [seat.id, `the ${seat.label}`] as const),
    ...snapshot.slots.map((slot, at) => [slot.id, `place ${at + 1}`] as const),
    ...Object.entries(purposeNames),
  ]);
  const now = {
    orders: reconciliation.purposes.map(({ key, merit }) => ({
      purpose: key,
      puppies: merit.map(({ puppy }) => puppy),
    })),
    slots: reconciliation.slots.map(({ key, chances: [first] }) => ({ slot: key, puppy: first?.puppy ?? null })),
  };
  return {
    priors: robustness.priors.map((one) => priorsSentence(one, names)),
    without: anonymous ? [] : robustness.without.map((one) => withoutSentence(one, now, names)),
    settling: robustness.settling.map((one) => settlingSentence(one, names)),
  };
}
