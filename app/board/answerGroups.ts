import type { BoardView } from '#lib/contract/boardView';
import { checkByKey } from '#lib/sheet/checkByKey';
import { counted } from '../_parts/counted';
import type { Faces } from './facesOf';

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
