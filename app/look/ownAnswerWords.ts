import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';

/** Where one's own answer is: not given, on its way, or on the server and what it says. */
export function ownAnswerWords({ look, faces, busy }: { readonly look: LookView; readonly faces: Faces; readonly busy: boolean }): string {
  if (busy) return 'On its way to the server…';
  if (look.own === null) return 'You have not answered yet.';
  const { choice, criterion } = look.own;
  const said = choice === 'tie' ? 'you cannot separate them' : faces.puppyName(choice === 'first' ? look.firstPuppyId : look.secondPuppyId);
  const why = criterion === null ? '' : `, decided by ${faces.criterionName(criterion).toLowerCase()}`;
  return `On the server: ${said}${why}. You can change it until the batch closes.`;
}
