import type { Bound, PromisedEvaluation, RecordLine } from './promises';
import { all, fault, outOfPlace, seatIn, unboundLine } from './recordLine';

/** Words went; whatever they were part of is bound anew, in the order in which it was bound first. */
export function removeWords(state: PromisedEvaluation, line: RecordLine): void {
  state.wordsRemoved.add(seatIn(line.detail));
  const revealed = state.rounds.filter((round) => round.state === 'revealed');
  const snapshots = line.detail
    .replace(/ ?\[.*$/, '')
    .split(' ')
    .filter((one) => /^[0-9a-f]{64}$/.test(one));
  if (state.known && (state.rounds.some((round) => round.state !== 'revealed') || snapshots.length !== revealed.length))
    fault(state, line, outOfPlace);
  for (const [at, round] of revealed.entries()) round.snapshot = state.bound ? snapshots.slice(at, at + 1) : snapshots;
  if (!state.bound) return;
  const next = {
    agreed: [...all(line, 'agreed')],
    reason: [...all(line, 'reason')],
    lateWords: [...all(line, 'lateWords')],
    noteWords: [...all(line, 'noteWords')],
  };
  const take = (name: keyof typeof next): Bound => {
    const hash = next[name].shift();
    if (hash === undefined) fault(state, line, unboundLine);
    return hash ?? null;
  };
  for (const round of state.rounds) round.agreed = take('agreed');
  for (const decision of state.decisions) decision.reason = take('reason');
  for (const { late } of revealed) {
    const lateWords = take('lateWords');
    if (late) late.lateWords = lateWords;
  }
  if (state.notes) state.notes.noteWords = take('noteWords');
}
