import type { BoardView } from '#lib/contract/boardView';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import type { Hold } from '#lib/contract/decisionView';
import { unexaminedSentence } from '#lib/evaluation/checksMade';
import { choiceWords } from '#lib/evaluation/holdsOf';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { counted } from '../_parts/textWords';
import { dayWords } from '../_parts/timeWords';
import styles from './_result.module.css';

type FindingsProps = { readonly board: BoardView; readonly holds: readonly Hold[]; readonly faces: Faces };

/** What is not normal, as a list to read before the table, and what nobody looked at: nothing found is said of what was examined alone. */
export function CheckFindings({ board, holds, faces }: FindingsProps) {
  const evaluation = useEvaluation();
  const found = board.checks.filter((line) => line.holds || hasFinding(line.check, line.answers));
  const open = unexaminedSentence(evaluation, board.checks);
  const examined = board.checks.some((line) =>
    line.answers.some(({ answer }) => outcomeOf(line.check, answer) === 'normal'),
  );
  return (
    <>
      {found.length === 0 && examined ? <p>No seat found anything out of the ordinary in what it examined.</p> : null}
      {open === null ? null : <p className="card edge-plain block">{open}</p>}
      {found.length === 0 ? null : (
        <ul className={`list grid gap-8 ${styles.findings}`}>
          {found.map((line) => (
            <li
              key={`${line.puppy} ${line.check}`}
              className={line.holds ? 'card edge-note block' : 'card edge-plain block'}
            >
              <b>
                {faces.puppyName(line.puppy)}, {checkByKey(line.check)?.name.toLowerCase() ?? line.check}:
              </b>{' '}
              {answerGroups(line, faces)
                .map(({ words, seats }) => `${words} (${seats.join(', ')})`)
                .join('; ')}
              .{line.holds ? ' Holds a show or breeding keep until a veterinary answer clears it.' : ''}
              {answeredWords(line, holds)}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

/** The veterinary answer that counts, with a blank before it; empty without one. */
function answeredWords({ puppy, check }: BoardView['checks'][number], holds: readonly Hold[]): string {
  const last = holds.find((hold) => hold.puppyId === puppy && hold.check === check)?.said.at(-1);
  return last ? ` Veterinary answer, ${choiceWords(last.choice, dayWords)}: “${last.answer}” (${last.by}).` : '';
}

const outcomeOf = (check: string, answer: string) =>
  checkByKey(check)?.answers.find(({ key }) => key === answer)?.outcome;

const isFinding = (check: string, answer: string): boolean =>
  ['watch', 'not-normal'].includes(outcomeOf(check, answer) ?? '');

/** Whether a seat found something to watch or not normal. */
export const hasFinding = (check: string, answers: readonly { readonly answer: string }[]): boolean =>
  answers.some(({ answer }) => isFinding(check, answer));

/** Of one check's answers those that are a finding, in words, with who said so. */
export const findingGroups = (line: BoardView['checks'][number], faces: Faces): AnswerGroup[] =>
  answerGroups({ ...line, answers: line.answers.filter(({ answer }) => isFinding(line.check, answer)) }, faces);

export type AnswerGroup = {
  readonly words: string;
  /** Labels of the seats that said so; in an anonymous panel how many did. */
  readonly seats: readonly string[];
  /** True where every seat that examined found the same normal thing. */
  readonly usual: boolean;
  /** False of "not examined" and of "does not apply": nobody looked, and nothing was found. */
  readonly examined: boolean;
};

/** The answers to one check of one puppy in words, with who said so; details follow their answer. */
export function answerGroups({ check, answers }: BoardView['checks'][number], faces: Faces): AnswerGroup[] {
  const offered = checkByKey(check)?.answers ?? [];
  const groups = new Map<string, { seats: string[]; usual: boolean; examined: boolean }>();
  for (const { seat, answer, detail } of answers) {
    const found = offered.find(({ key }) => key === answer);
    const words = `${found?.words ?? answer}${detail === '' ? '' : `, ${detail}`}`;
    const outcome = found?.outcome;
    const group = groups.get(words) ?? {
      seats: [],
      usual: outcome === 'normal',
      examined: outcome !== 'not-examined' && outcome !== 'does-not-apply',
    };
    group.seats.push(faces.seatLabel(seat));
    groups.set(words, group);
  }
  const alike = [...groups.values()].filter(({ examined }) => examined).length <= 1;
  const countsOnly = answers.some(({ seat }) => seat === null);
  return [...groups].map(([words, { seats, usual, examined }]) => ({
    words,
    seats: countsOnly ? [counted(seats.length, 'seat')] : seats,
    usual: usual && alike,
    examined,
  }));
}
