import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../_evaluation/facesOf';

export type Pair = { readonly firstPuppyId: string; readonly secondPuppyId: string };
type Shown = { readonly pair: Pair; /** Its place in the batch, from 0: new pairs take turns. */ readonly at: number; readonly medium: LookView['medium'] };

/** Which of the two will stand on the left; on a repeat they change places, and it says so. */
export function pairNotice(looks: readonly LookView[], { pair: { firstPuppyId: first, secondPuppyId: second }, at, medium }: Shown, faces: Faces): string {
  if (medium === 'photographs') return 'From photographs each seat has sides of its own, so that the side cannot decide.';
  const earlier = looks.findLast((look) => [look.firstPuppyId, look.secondPuppyId].sort().join() === [first, second].sort().join());
  if (!earlier) {
    const [left, right] = at % 2 === 0 ? [first, second] : [second, first];
    return `${faces.puppyName(left)} will stand on the left, ${faces.puppyName(right)} on the right.`;
  }
  const left = earlier.leftPuppyId === first ? second : first;
  return `These two were looked at before: this time they change places, and ${faces.puppyName(left)} stands on the left.`;
}
