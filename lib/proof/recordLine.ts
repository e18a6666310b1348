import type { Bound, PromisedEvaluation, RecordLine } from './promises';
import { type BoundName, bindingsIn } from './recordKinds';

export const outOfPlace = 'this line could not have been written where it stands';

export const unboundLine = 'this line lacks the hash of what it tells of';

export function fault(state: PromisedEvaluation, { seq }: Pick<RecordLine, 'seq'>, words: string): void {
  state.faults.push({ seq, words });
}

/** A seat's id from how the record names it, in an actor or at the end of some words. */
export function seatIn(words: string): string {
  return /seat:([0-9a-f]{32})/.exec(words)?.[1] ?? '';
}

export function all(line: RecordLine, name: BoundName): readonly string[] {
  return bindingsIn(line.detail).flatMap(([one, hash]) => (one === name ? [hash] : []));
}

export function bound(state: PromisedEvaluation, line: RecordLine, name: BoundName): Bound {
  if (!state.bound) return null;
  const [hash] = all(line, name);
  if (hash === undefined) fault(state, line, unboundLine);
  return hash ?? null;
}
