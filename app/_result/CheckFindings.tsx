import type { BoardView } from '#lib/contract/boardView';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import type { Faces } from '../_evaluation/facesOf';
import { counted } from '../_parts/textWords';
import styles from './_result.module.css';

/** Only what is not normal, as a list to read before the table. */
export function CheckFindings({ board, faces }: { readonly board: BoardView; readonly faces: Faces }) {
  const found = board.checks.filter((line) => line.holds || line.answers.some(({ answer }) => isUnusual(line.check, answer)));
  if (found.length === 0) return <p>No seat found anything out of the ordinary in what it checked.</p>;
  return (
    <ul className={`list grid gap-8 ${styles.findings}`}>
      {found.map((line) => (
        <li key={`${line.puppy} ${line.check}`} className={line.holds ? 'card edge-note block' : 'card edge-plain block'}>
          <b>
            {faces.puppyName(line.puppy)}, {checkByKey(line.check)?.name.toLowerCase() ?? line.check}:
          </b>{' '}
          {answerGroups(line, faces)
            .map(({ words, seats }) => `${words} (${seats.join(', ')})`)
            .join('; ')}
          .{line.holds ? ' Holds a show or breeding keep until a veterinary answer is recorded.' : ''}
        </li>
      ))}
    </ul>
  );
}

function isUnusual(check: string, answer: string): boolean {
  const outcome = checkByKey(check)?.answers.find(({ key }) => key === answer)?.outcome;
  return outcome === 'watch' || outcome === 'not-normal';
}

export type AnswerGroup = {
  readonly words: string;
  /** Labels of the seats that said so; in an anonymous panel how many did. */
  readonly seats: readonly string[];
  /** True where every seat that examined found the same normal thing. */
  readonly usual: boolean;
  readonly examined: boolean;
};

/** The answers to one check of one puppy in words, with who said so; details follow their answer. */
export function answerGroups({ check, answers }: BoardView['checks'][number], faces: Faces): AnswerGroup[] {
  const offered = checkByKey(check)?.answers ?? [];
  const groups = new Map<string, { seats: string[]; usual: boolean; examined: boolean }>();
  for (const { seat, answer, detail } of answers) {
    const found = offered.find(({ key }) => key === answer);
    const words = `${found?.words ?? answer}${detail === '' ? '' : `, ${detail}`}`;
    const usual = found?.outcome === 'normal' || found?.outcome === 'does-not-apply' || found?.outcome === 'not-examined';
    const group = groups.get(words) ?? { seats: [], usual, examined: found?.outcome !== 'not-examined' };
    group.seats.push(faces.seatLabel(seat));
    groups.set(words, group);
  }
  const alike = [...groups.values()].filter(({ examined }) => examined).length <= 1;
  const countsOnly = answers.some(({ seat }) => seat === null);
  return [...groups].map(([words, { seats, usual, examined }]) => ({
    words,
    seats: countsOnly ? [counted(seats.length, 'seat')] : seats,
    usual: usual && (alike || !examined),
    examined,
  }));
}
