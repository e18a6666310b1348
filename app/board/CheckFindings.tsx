import type { BoardView } from '#lib/contract/boardView';
import { checkByKey } from '#lib/sheet/checkByKey';
import { answerGroups } from './answerGroups';
import styles from './CheckFindings.module.css';
import type { Faces } from './facesOf';

/** Only what is not normal, as a list to read before the table. */
export function CheckFindings({ board, faces }: { readonly board: BoardView; readonly faces: Faces }) {
  const found = board.checks.filter((line) => line.holds || line.answers.some(({ answer }) => isUnusual(line.check, answer)));
  if (found.length === 0) return <p>No seat found anything out of the ordinary in what it checked.</p>;
  return (
    <ul className={styles.findings}>
      {found.map((line) => (
        <li key={`${line.puppy} ${line.check}`} className={line.holds ? styles.hold : styles.finding}>
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
