import type { Hold } from '#lib/contract/decisionView';
import { readings } from '#lib/reconcile/sentences/readings';
import { listWords } from '../board/listWords';
import type { DecideProps } from './PicksSection';

/** What changes if a standing hold falls: the places that open to its puppy, and how it stands against whoever is likeliest there now. */
export function holdFallWords(hold: Hold, { evaluation, revealed, faces }: DecideProps): string[] {
  const puppy = faces.puppy(hold.puppyId);
  if (!puppy || puppy.withdrawn || hold.cleared !== null) return [];
  const { decisions, holds } = revealed.decision;
  const name = puppy.name;
  if (decisions.some((one) => one.puppyId === puppy.id)) return [`${name} is picked already, so nothing opens if it falls.`];
  const open = evaluation.slots.filter((slot) => slot.purpose === 'keep' && (slot.sex === 'any' || slot.sex === puppy.sex) && !decisions.some((one) => one.slotId === slot.id));
  if (open.length === 0) return ['No open place waits on it.'];
  const places = `${open.length === 1 ? 'place' : 'places'} ${listWords(open.map((slot) => String(faces.place(slot.id))))}`;
  const others = holds.some((one) => one.puppyId === puppy.id && one.cleared === null && one.check !== hold.check);
  if (others) return [`Another check holds ${name} too: ${places} opens to ${name} only when every one of them has fallen.`];
  return [`If it falls, ${places} ${open.length === 1 ? 'opens' : 'open'} to ${name}.`, ...open.slice(0, 1).flatMap((slot) => againstWords(slot.id, { id: puppy.id, name }, { revealed, faces }))];
}

type Against = Pick<DecideProps, 'revealed' | 'faces'>;

function againstWords(slotId: string, { id, name }: { readonly id: string; readonly name: string }, { revealed, faces }: Against): string[] {
  const likeliest = revealed.board.slots.find((one) => one.slotId === slotId)?.chances[0]?.puppy;
  const better = revealed.board.purposes.find(({ key }) => key === 'keep')?.better[id];
  const ahead = likeliest === undefined ? undefined : better?.[likeliest];
  if (likeliest === undefined || ahead === undefined) return [];
  const other = faces.puppyName(likeliest);
  return [`${other} is the likeliest for place ${faces.place(slotId)} now; ${name} is ahead of ${other} in ${readings(ahead)} of 100 readings. The chances are worked out anew when the answer is written down.`];
}
