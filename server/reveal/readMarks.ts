import { listMarksOfRounds } from '#db/queries/unblinded/listMarksOfRounds';
import { listOwnMarks } from '#db/queries/listOwnMarks';
import type { Db } from '#db/open';
import { anonymousMarks } from '#lib/blind/anonymousMarks';
import type { PhotoMarks } from '#lib/contract/photo';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { scoredRounds } from '#lib/evaluation/scoredRounds';
import { readsOnly } from '#lib/evaluation/readsOnly';

type Reader = { readonly facts: EvaluationFacts; readonly viewer: Viewer & { readonly reads: boolean }; readonly deviceId: string };

/** BL1: one's own marks always; everybody's of rounds that are revealed, without their seats in an anonymous panel. A round under way keeps its marks to their makers. */
export function readMarks(db: Db, reader: Reader): PhotoMarks {
  const marks = namedMarks(db, reader);
  return reader.facts.plan.discussion === 'anonymous' ? anonymousMarks(marks, reader.viewer.seatId) : marks;
}

function namedMarks(db: Db, { facts, viewer, deviceId }: Reader): PhotoMarks {
  const rounds = [...facts.earlierRounds, ...(facts.round ? [facts.round] : [])];
  const roundIds = rounds.filter((round) => round.state === 'revealed').map((round) => round.id);
  const beforeFirst = scoredRounds(facts).length > 0;
  const shown = roundIds.length > 0 && viewer.reads ? listMarksOfRounds(db, facts.id, { roundIds, beforeFirst }) : { pointers: [], measurements: [] };
  const seat = facts.seats.find((one) => one.id === viewer.seatId);
  if (!seat) return shown;
  const state = facts.round?.state ?? 'open';
  const own = listOwnMarks(db, { evaluationId: facts.id, seatId: seat.id, onlyDevice: readsOnly(state, seat, deviceId) });
  return { pointers: both(shown.pointers, own.pointers), measurements: both(shown.measurements, own.measurements) };
}

function both<T extends { readonly id: string; readonly at: number }>(shown: readonly T[], own: readonly T[]): T[] {
  const known = new Set(shown.map((one) => one.id));
  return [...shown, ...own.filter((one) => !known.has(one.id))].toSorted((one, other) => one.at - other.at || one.id.localeCompare(other.id));
}
