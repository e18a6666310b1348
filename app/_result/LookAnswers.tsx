import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../_evaluation/facesOf';
import { SeatShape } from '../_parts/SeatShape';

/** Answers of a closed look, seat by seat, with the deciding criterion. */
export function LookAnswers({ look, faces }: { readonly look: LookView; readonly faces: Faces }) {
  const place = (seat: string | null) => faces.seat(seat)?.position ?? 0;
  const answers = (look.answers ?? []).toSorted((a, b) => place(a.seat) - place(b.seat));
  if (answers.length === 0) return null;
  return (
    <ul className="list stack gap-4">
      {answers.map(({ seat, choice, criterion }, at) => (
        <li key={seat ?? at}>
          {seat === null ? null : <SeatShape position={place(seat)} size={16} />} {faces.seatLabel(seat)}:{' '}
          <b>
            {choice === 'tie'
              ? 'cannot separate them'
              : faces.puppyName(choice === 'first' ? look.firstPuppyId : look.secondPuppyId)}
          </b>
          {criterion === null ? '' : `, decided by ${faces.criterionName(criterion).toLowerCase()}`}
        </li>
      ))}
    </ul>
  );
}

/** How a second look came out, in one sentence; while it is open, only that it is. */
export function lookOutcomeWords(look: LookView, faces: Faces): string {
  const [first, second] = [faces.puppyName(look.firstPuppyId), faces.puppyName(look.secondPuppyId)];
  const what = `${look.repeat ? 'Second look again' : 'Second look'} at ${first} and ${second}`;
  if (look.answers === null)
    return look.state === 'open'
      ? `${what}: open.`
      : `${what}: came back closed with a restored backup, not shown yet.`;
  if (look.answers.length === 0) return `${what}: closed without an answer.`;
  const count = (choice: 'first' | 'second' | 'tie') =>
    look.answers?.filter((answer) => answer.choice === choice).length ?? 0;
  const parts = [
    [count('first'), `for ${first}`],
    [count('second'), `for ${second}`],
    [count('tie'), 'cannot separate them'],
  ] as const;
  return `${what}: ${parts.flatMap(([many, words]) => (many === 0 ? [] : [`${many} ${words}`])).join(', ')}.`;
}
