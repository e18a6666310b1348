import type { PurposeResult } from '../reconciliation';
import { readings } from './readings';

/** Who stands first and how sure that is: too close to call below 80 readings of 100. */
export function meritSentence(result: PurposeResult, names: Readonly<Record<string, string>>): string {
  const first = result.merit.toSorted((a, b) => (b.ranks[0] ?? 0) - (a.ranks[0] ?? 0));
  const [leader, next] = first;
  if (!leader) return 'No puppy was scored.';
  const name = (puppy: string) => names[puppy] ?? puppy;
  if (!next) return `${name(leader.puppy)} is the only puppy of this round.`;
  const leading = `${name(leader.puppy)} stands first in ${readings(leader.ranks[0] ?? 0)} readings of these scores, ${name(next.puppy)} in ${readings(next.ranks[0] ?? 0)}`;
  return (leader.ranks[0] ?? 0) < 0.8 ? `${leading}: too close to call.` : `${leading}.`;
}
