import { closeCallThresholds } from '../merit/slotResults';
import type { PurposeResult } from '../merit/reconciliation';
import { capitalised, nameOf, readings, type Names } from './readings';

/** Who comes first for a purpose, and how surely: "Fern comes first in 60 of 100 readings of these scores, Moss in 31: too close to call." */
export function meritSentence(result: PurposeResult, names: Names): string {
  const firsts = result.merit
    .map(({ puppy, ranks }) => ({ name: nameOf(names, puppy), chance: ranks[0] ?? 0 }))
    .sort((a, b) => b.chance - a.chance);
  const [first, second] = firsts;
  if (!first) return 'There is no puppy to put in order.';
  if (!second) return `${capitalised(first.name)} is the only puppy, so there is no order to make.`;
  const lead = `${capitalised(first.name)} comes first in ${readings(first.chance)} of 100 readings of these scores`;
  if (first.chance >= closeCallThresholds.closeBelow) return `${lead}.`;
  return `${lead}, ${second.name} in ${readings(second.chance)}: too close to call.`;
}
