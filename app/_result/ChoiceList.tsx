import type { BoardView } from '#lib/contract/boardView';
import type { Faces } from '../_evaluation/facesOf';

/** What each seat chose for one place before it locked, with its reason and chance. Outside merit. */
export function ChoiceList({ choices, faces }: { readonly choices: BoardView['choices']; readonly faces: Faces }) {
  return (
    <ul className="list stack gap-6">
      {choices.map((choice, at) => (
        <li key={choice.seat ?? at}>
          <b>{faces.seatLabel(choice.seat)}</b>: {choice.puppy === null ? 'none' : faces.puppyName(choice.puppy)}
          {choice.chance === null ? '' : `, holds it ${choice.chance} of 100 likely that this stands in twelve months`}
          {choice.reason === '' ? '.' : `. ${choice.reason}`}
        </li>
      ))}
    </ul>
  );
}
