import { listOwnMarks } from '#db/queries/photoMarks';
import { listReleasedMarks } from '#db/queries/unblinded/answers';
import type { Db } from '#db/open';
import { anonymousMarks } from '#lib/blind/photoViews';
import type { PhotoMarks } from '#lib/contract/photo';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { markReader } from '#lib/evaluation/seats';

type Reader = {
  readonly facts: EvaluationFacts;
  readonly viewer: Viewer & { readonly reads: boolean };
  readonly deviceId: string;
};

/**
 * BL1, BL8: one's own marks always; of others what was made under rounds and second looks that are revealed, without their
 * seats in an anonymous panel.
 */
export function readMarks(db: Db, reader: Reader): PhotoMarks {
  const marks = namedMarks(db, reader);
  return reader.facts.plan.discussion === 'anonymous' ? anonymousMarks(marks, reader.viewer.seatId) : marks;
}

function namedMarks(db: Db, { facts, viewer, deviceId }: Reader): PhotoMarks {
  const { seatId, onlyDevice } = markReader(facts, viewer, deviceId);
  const shown = viewer.reads ? listReleasedMarks(db, facts.id, seatId) : { pointers: [], measurements: [] };
  if (seatId === null) return shown;
  const own = listOwnMarks(db, { evaluationId: facts.id, seatId, onlyDevice });
  return { pointers: both(shown.pointers, own.pointers), measurements: both(shown.measurements, own.measurements) };
}

function both<T extends { readonly id: string; readonly at: number }>(shown: readonly T[], own: readonly T[]): T[] {
  return [...shown, ...own].toSorted((one, other) => one.at - other.at || one.id.localeCompare(other.id));
}
