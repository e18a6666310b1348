import type { LookVerdict } from '../looks/lookVerdict';
import { capitalised, listed, nameOf, readings, type Names } from './readings';

/**
 * What the second looks of a slot have come to: "Fern is the best of those eligible in 84 of 100 readings of the scores and second looks: …" / "Fern and Moss
 * lie within half a point of each other in 86 of 100 readings …" / "After 2 batches of second looks this place is not settled: it leans to Fern, …"
 */
export function lookVerdictSentence(verdict: LookVerdict, names: Names): string {
  const {
    leading: [first, second],
    batches,
    closeBelow,
  } = verdict;
  if (!first) return 'No eligible puppy is left for this place.';
  const sources = batches.used > 0 ? 'the scores and second looks' : 'the scores';
  const count = (chance: number) => readings(chance, closeBelow);
  const standing = `${nameOf(names, first.puppy)} is the best of those eligible in ${count(first.probability)} of 100 readings of ${sources}`;
  if (verdict.kind === 'settled') return `${capitalised(standing)}: no further look is needed.`;
  const candidates = listed(verdict.candidates.map((puppy) => nameOf(names, puppy)));
  if (verdict.kind === 'equalWithinHalf') {
    return `${capitalised(candidates)} lie within ${halfInWords(verdict.halfStep)} of each other in ${readings(verdict.alike)} of 100 readings of ${sources}: decide between them on other grounds.`;
  }
  if (verdict.kind === 'notSettled') {
    const after = batches.used === 0 ? 'Without second looks' : `After ${batchesInWords(batches.used)} of second looks`;
    const against = second ? `, to ${nameOf(names, second.puppy)} in ${count(second.probability)}` : '';
    return `${after} this place is not settled between ${candidates}: it leans to ${nameOf(names, first.puppy)}, the best of those eligible in ${count(first.probability)} of 100 readings of ${sources}${against}.`;
  }
  const left = batches.agreed - batches.used;
  return `Still open between ${candidates}: ${standing}. ${capitalised(batchesInWords(left))} of second looks ${left === 1 ? 'is' : 'are'} left.`;
}

/** "half a point" on a seven-step sheet, "0.33 points" on a five-step one. */
function halfInWords(halfStep: number): string {
  return halfStep === 0.5 ? 'half a point' : `${Number(halfStep.toPrecision(2))} points`;
}

function batchesInWords(count: number): string {
  return count === 1 ? 'one batch' : `${count} batches`;
}
