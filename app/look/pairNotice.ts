import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';

/** Which of the two will stand on the left; on a repeat they change places, and it says so. */
export function pairNotice(looks: readonly LookView[], [first, second]: readonly [string, string], faces: Faces): string {
  const earlier = looks.findLast((look) => [look.firstPuppyId, look.secondPuppyId].sort().join() === [first, second].sort().join());
  if (!earlier) return `${faces.puppyName(first)} will stand on the left, ${faces.puppyName(second)} on the right.`;
  const left = earlier.leftPuppyId === first ? second : first;
  return `These two were looked at before: this time they change places, and ${faces.puppyName(left)} stands on the left.`;
}
