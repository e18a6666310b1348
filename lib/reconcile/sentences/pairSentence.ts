import { closeCallThresholds } from '../merit/slotResults';
import type { PurposeResult } from '../merit/reconciliation';
import { capitalised, nameOf, readings, type Names } from './readings';

/** Two puppies against each other, the likelier named first: "Fern is ahead of Moss in 61 of 100 readings of these scores: too close to call." */
export function pairSentence(result: PurposeResult, pair: readonly [string, string], names: Names): string {
  const chance = result.better[pair[0]]?.[pair[1]] ?? 0.5;
  const [ahead, behind] = chance >= 0.5 ? pair : [pair[1], pair[0]];
  const likelier = Math.max(chance, 1 - chance);
  const sentence = `${capitalised(nameOf(names, ahead))} is ahead of ${nameOf(names, behind)} in ${readings(likelier)} of 100 readings of these scores`;
  return likelier < closeCallThresholds.closeBelow ? `${sentence}: too close to call.` : `${sentence}.`;
}
