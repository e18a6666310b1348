import type { LookVerdict } from '../lookVerdict';
import { capitalised, listed, nameOf, readings, type Names } from './readings';

/**
 * What the second looks of a slot have come to: "Fern is the best of those eligible in 84 of 100 readings of the scores and looks: settled." /
 * "After 2 batches of second looks, Fern and Moss count as equal on structure: Fern is the best … in 61 of 100 readings …, which is too close to call. …"
 */
export function lookVerdictSentence(verdict: LookVerdict, names: Names): string {
  const { favoured, batches } = verdict;
  if (!favoured) return 'No eligible puppy is left for this place.';
  const sources = batches.used > 0 ? 'the scores and second looks' : 'the scores';
  const standing = `${nameOf(names, favoured.puppy)} is the best of those eligible in ${readings(favoured.probability)} of 100 readings of ${sources}`;
  if (verdict.kind === 'settled') return `${capitalised(standing)}: no further look is needed.`;
  const candidates = listed(verdict.candidates.map((puppy) => nameOf(names, puppy)));
  if (verdict.kind === 'equalOnStructure') {
    const after = batches.used === 0 ? 'Without second looks' : `After ${batchesInWords(batches.used)} of second looks`;
    return `${after}, ${candidates} count as equal on structure: ${standing}, which is too close to call. That is a usual result; decide on other grounds.`;
  }
  const left = batches.agreed - batches.used;
  return `Still open between ${candidates}: ${standing}. ${capitalised(batchesInWords(left))} of second looks ${left === 1 ? 'is' : 'are'} left.`;
}

function batchesInWords(count: number): string {
  return count === 1 ? 'one batch' : `${count} batches`;
}
