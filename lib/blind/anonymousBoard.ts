import type { BoardView } from '../contract/boardView';

/**
 * The board of an anonymous panel (BL9): what was said, never by whom, each list in an order of its own content. Reasons
 * and chances of own choices are left out, since words tell their author; a seat still sees its own profile.
 */
export function anonymousBoard(board: BoardView, ownSeatId: string | null): BoardView {
  return {
    ...board,
    criteria: board.criteria.map((criterion) => ({ ...criterion, dots: nameless(criterion.dots) })),
    checks: board.checks.map((line) => ({ ...line, answers: nameless(line.answers) })),
    asides: nameless(board.asides),
    notes: nameless(board.notes),
    choices: nameless(board.choices.map((choice) => ({ ...choice, reason: '', chance: null }))),
    repeats: nameless(board.repeats),
    unfair: nameless(board.unfair.map((day) => ({ ...day, why: '' }))),
    evaluators: board.evaluators.filter((line) => line.seat === ownSeatId),
  };
}

function nameless<T extends { readonly seat: string | null }>(lines: readonly T[]): T[] {
  const told = lines.map((line) => ({ ...line, seat: null }));
  return told.toSorted((one, other) => JSON.stringify(one).localeCompare(JSON.stringify(other)));
}
