import type { Answer } from '#lib/contract/entry';
import type { Snapshot } from '#lib/contract/snapshot';

/**
 * What merit is worked out from after a second round: the first round with a seat's second score in each cell where it
 * gave one; its first stands everywhere else. Without a second round, the first as it is.
 */
export function mergedSnapshot(first: Snapshot, second: Snapshot | null): Snapshot {
  if (!second) return first;
  const puppyOf = new Map(second.showings.map(({ id, puppyId }) => [id, puppyId]));
  const again = new Map(
    second.answers.flatMap((answer): [string, Answer['body']][] => {
      const { body } = answer;
      const said = body.kind === 'score' && (body.value !== null || body.cannotJudge);
      return said ? [[cellKey(answer.seatId, puppyOf.get(answer.subject), answer.field), body]] : [];
    }),
  );
  const shown = new Map(first.showings.filter(({ repeat }) => !repeat).map(({ id, puppyId }) => [id, puppyId]));
  const kept = first.answers.filter(
    ({ seatId, subject, field }) => !again.has(cellKey(seatId, shown.get(subject), field)),
  );
  const showingOf = new Map([...shown].map(([id, puppyId]) => [puppyId, id]));
  const replaced = second.answers.flatMap((answer): Snapshot['answers'] => {
    const puppyId = puppyOf.get(answer.subject);
    const subject = puppyId === undefined ? undefined : showingOf.get(puppyId);
    return subject !== undefined && again.has(cellKey(answer.seatId, puppyId, answer.field))
      ? [{ ...answer, subject }]
      : [];
  });
  return { ...first, seats: second.seats, answers: [...kept, ...replaced] };
}

const cellKey = (seatId: string, puppyId: string | undefined, field: string) => `${seatId} ${puppyId} ${field}`;
