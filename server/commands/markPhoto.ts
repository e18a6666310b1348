import { findPhoto } from '#db/queries/findPhoto';
import { insertMeasurement } from '#db/queries/insertMeasurement';
import { insertPointer } from '#db/queries/insertPointer';
import { listOwnMarks } from '#db/queries/listOwnMarks';
import { removePointer } from '#db/queries/removePointer';
import type { MeasurementInput, PointerInput } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import type { SeatFacts } from '#lib/evaluation/facts';
import { madeUnder, toldAtOnce } from '#lib/evaluation/toldAtOnce';
import type { Runtime } from '../runtime';
import { writeEvaluation, type EvaluationWrite } from './writeEvaluation';

export type PhotoMark =
  | { readonly kind: 'point'; readonly id: string; readonly photoId: string; readonly pointer: PointerInput }
  | { readonly kind: 'unpoint'; readonly id: string }
  | { readonly kind: 'measure'; readonly id: string; readonly photoId: string; readonly measurement: MeasurementInput };

type Marking = { readonly evaluationId: string; readonly seat: SeatFacts; readonly deviceId: string; readonly mark: PhotoMark };

/**
 * A mark or a measurement on a picture is score data: while a round or a look is open only its own seat hears of it, or of
 * its being taken back (BL1, BL8), so only that seat's counter moves.
 */
export function markPhoto(runtime: Runtime, marking: Marking): void {
  const { seat, evaluationId } = marking;
  writeEvaluation(runtime, evaluationId, (write) => {
    const { facts } = write;
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    if (seat.kind === 'none') throw new DomainError('not-allowed');
    keep(runtime, marking, write);
    if (toldAtOnce(facts)) write.touchAll();
    else write.touchSeat(seat.id);
  });
}

function keep({ db }: Runtime, { evaluationId, seat, deviceId, mark }: Marking, { facts, at }: EvaluationWrite): void {
  if (mark.kind === 'unpoint') {
    const own = listOwnMarks(db, { evaluationId, seatId: seat.id, onlyDevice: null }).pointers;
    if (!own.some((pointer) => pointer.id === mark.id)) throw new DomainError('not-found');
    return removePointer(db, { pointerId: mark.id, at, ...madeUnder(facts) });
  }
  const photo = findPhoto(db, mark.photoId);
  if (!photo || photo.evaluationId !== facts.id || photo.removedAt !== null || photo.kind !== 'picture') throw new DomainError('not-found');
  const made = { id: mark.id, photoId: photo.id, seatId: seat.id, deviceId, ...madeUnder(facts), at };
  if (mark.kind === 'measure') return insertMeasurement(db, { ...made, ratio: mark.measurement.ratio, body: JSON.stringify(mark.measurement) });
  const { kind, from, to, note } = mark.pointer;
  insertPointer(db, { ...made, kind, x: from.x, y: from.y, toX: to.x, toY: to.y, note });
}
