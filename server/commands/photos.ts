import { picturesFolder, removePicture } from '#db/picturesFolder';
import { insertMeasurement, insertPointer, listOwnMarks, removePointer } from '#db/queries/photoMarks';
import {
  findPhoto,
  findPhotoByHash,
  insertPhoto,
  listPhotos,
  type PhotoRow,
  saveShotList,
  updatePhoto,
} from '#db/queries/photos';
import type { MeasurementInput, PhotoTag, PointerInput } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { scoredRounds } from '#lib/evaluation/rounds';
import { mayAddPhoto, mayChooseKeeper } from '#lib/evaluation/seats';
import { madeUnder, toldAtOnce } from '#lib/evaluation/toldAtOnce';
import { type Media, photoLimits } from '#lib/photo/photoFile';
import type { ShotKey } from '#lib/photo/shot';
import type { Runtime } from '../runtime';
import {
  type Acting,
  type Asker,
  change,
  type EvaluationWrite,
  ownSeat,
  writeEvaluation,
} from '../write/writeEvaluation';

export type NewPhoto = {
  readonly id: string;
  readonly tag: PhotoTag;
  readonly media: Media;
  /** Names of its files, which are written already. */
  readonly file: string;
  readonly thumb: string;
};

/** Throws unless this viewer may bring this picture now. */
export function checkNewPhoto(
  { facts, viewer, seat }: Acting & { readonly facts: EvaluationFacts },
  tag: PhotoTag,
): void {
  if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
  if (!mayAddPhoto(facts, { viewer, seat })) throw new DomainError('not-allowed');
  if (!facts.puppies.some((puppy) => puppy.id === tag.puppy)) throw new DomainError('not-found');
}

/**
 * Keeps a picture whose files are written: files first, then the row, so that no row is without files. The same id, or the same
 * bytes in the same evaluation, is the same picture (SC2): then `fresh` is false and its new files are not needed.
 */
export function storePhoto(ctx: Asker, photo: NewPhoto): { readonly id: string; readonly fresh: boolean } {
  const kept = keptAlready(ctx.runtime, { ...photo, hash: photo.media.hash });
  return kept === null ? { id: insertRow(ctx, photo), fresh: true } : { id: kept.id, fresh: false };
}

function insertRow(ctx: Asker, { id: wanted, tag, media, file, thumb }: NewPhoto): string {
  const { db, random } = ctx.runtime;
  return change({ ctx, id: tag.evaluation }, (write) => {
    const { viewer, at, touchAll } = write;
    checkNewPhoto(write, tag);
    if (listPhotos(db, tag.evaluation).length >= photoLimits.perEvaluation)
      throw new DomainError('too-many', { most: photoLimits.perEvaluation });
    // A picture that was removed and is brought again is a new one.
    const id = findPhoto(db, wanted) ? random.id() : wanted;
    const row = { ...media, id, file, thumb: media.kind === 'picture' ? thumb : null, seatId: viewer.seatId };
    insertPhoto(db, {
      ...row,
      evaluationId: tag.evaluation,
      puppyId: tag.puppy,
      view: tag.view,
      takenAt: tag.taken,
      receivedAt: at,
      fair: tag.fair === 'yes' ? 1 : 0,
    });
    touchAll();
    return id;
  });
}

type Kept = { readonly id: string; readonly hash: string };

/** Id and hash under which this picture is kept already, or null. An id that belongs to another evaluation is taken. `hash` null asks by the id alone. */
export function keptAlready(
  { db }: Runtime,
  { id, tag, hash }: Pick<NewPhoto, 'id' | 'tag'> & { readonly hash: string | null },
): Kept | null {
  const same = findPhoto(db, id);
  if (same && same.evaluationId !== tag.evaluation) throw new DomainError('in-use');
  if (same && same.removedAt === null) return { id: same.id, hash: same.hash };
  const twin = hash === null ? undefined : findPhotoByHash(db, tag.evaluation, hash);
  return twin && hash !== null ? { id: twin.id, hash } : null;
}

type PhotoChange =
  | { readonly kind: 'place'; readonly puppyId: string; readonly view: ShotKey }
  | { readonly kind: 'fair'; readonly fair: boolean }
  | { readonly kind: 'keep' }
  | { readonly kind: 'remove' };

type Asked = { readonly evaluationId: string; readonly photoId: string; readonly change: PhotoChange };

/** Matches a picture to another puppy or view, says whether it is a fair one, makes it its view's keeper, or removes it for good. */
export async function changePhoto(ctx: Asker, asked: Asked): Promise<void> {
  const { db } = ctx.runtime;
  const removed = change({ ctx, id: asked.evaluationId }, (write) => {
    const { facts, at, touchAll } = write;
    const photo = findPhoto(db, asked.photoId);
    if (!photo || photo.evaluationId !== facts.id || photo.removedAt !== null) throw new DomainError('not-found');
    allow(write, photo, asked.change);
    apply(ctx.runtime, { photo, at }, asked.change);
    touchAll();
    return asked.change.kind === 'remove' ? [photo.file, photo.thumb] : [];
  });
  for (const file of removed) if (file !== null) await removePicture(picturesFolder(db), file);
}

function allow({ facts, viewer, seat }: EvaluationWrite & Acting, photo: PhotoRow, wanted: PhotoChange): void {
  if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
  if (!mayAddPhoto(facts, { viewer, seat })) throw new DomainError('not-allowed');
  // After the reveal a change of a picture may answer what is asked blind of its puppy; it waits.
  if (scoredRounds(facts).length > 0 && !toldAtOnce(facts)) throw new DomainError('still-open');
  if (wanted.kind === 'keep' && !mayChooseKeeper(facts, { viewer, seat })) throw new DomainError('wrong-phase');
  // After scores were seen a picture keeps its view, or the keeper of a view could be changed by moving pictures.
  if (wanted.kind === 'place' && photo.keeper === 1 && !mayChooseKeeper(facts, { viewer, seat }))
    throw new DomainError('wrong-phase');
  const mine = viewer.owner || (photo.seatId !== null && photo.seatId === viewer.seatId);
  if (wanted.kind === 'remove' && !mine) throw new DomainError('not-allowed');
  if (wanted.kind === 'place' && !facts.puppies.some((puppy) => puppy.id === wanted.puppyId))
    throw new DomainError('not-found');
}

function apply(
  { db }: Runtime,
  { photo, at }: { readonly photo: PhotoRow; readonly at: number },
  wanted: PhotoChange,
): void {
  switch (wanted.kind) {
    case 'place':
      return updatePhoto(db, photo.id, {
        puppyId: wanted.puppyId,
        view: wanted.view,
        ...(photo.puppyId === wanted.puppyId && photo.view === wanted.view ? {} : { keeper: 0 }),
      });
    case 'fair':
      return updatePhoto(db, photo.id, { fair: wanted.fair ? 1 : 0 });
    case 'remove':
      return updatePhoto(db, photo.id, { removedAt: at, keeper: 0 });
    case 'keep':
      for (const other of listPhotos(db, photo.evaluationId)) {
        if (other.puppyId === photo.puppyId && other.view === photo.view)
          updatePhoto(db, other.id, { keeper: other.id === photo.id ? 1 : 0 });
      }
  }
}

/** Which views are wanted of each puppy, in this order. */
export function saveShots(runtime: Runtime, evaluationId: string, wanted: readonly ShotKey[]): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll }) => {
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    saveShotList(runtime.db, facts.id, wanted);
    touchAll();
  });
}

type PhotoMark =
  | { readonly kind: 'point'; readonly id: string; readonly photoId: string; readonly pointer: PointerInput }
  | { readonly kind: 'unpoint'; readonly id: string }
  | { readonly kind: 'measure'; readonly id: string; readonly photoId: string; readonly measurement: MeasurementInput };

type Made = { readonly seat: SeatFacts; readonly deviceId: string; readonly mark: PhotoMark };

/**
 * A mark or a measurement on a picture is score data: while a round or a look is open only its own seat hears of it, or of
 * its being taken back (BL1, BL8), so only that seat's counter moves.
 */
export function markPhoto(
  ctx: Asker,
  { evaluationId, mark }: { readonly evaluationId: string; readonly mark: PhotoMark },
): void {
  change({ ctx, id: evaluationId }, (write) => {
    const { facts } = write;
    const seat = ownSeat(write);
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    if (seat.kind === 'none') throw new DomainError('not-allowed');
    keep(ctx.runtime, write, { seat, deviceId: ctx.device.id, mark });
    if (toldAtOnce(facts)) write.touchAll();
    else write.touchSeat(seat.id);
  });
}

function keep({ db }: Runtime, { facts, at }: EvaluationWrite, { seat, deviceId, mark }: Made): void {
  if (mark.kind === 'unpoint') {
    const own = listOwnMarks(db, { evaluationId: facts.id, seatId: seat.id, onlyDevice: null }).pointers;
    if (!own.some((pointer) => pointer.id === mark.id)) throw new DomainError('not-found');
    return removePointer(db, { pointerId: mark.id, at, ...madeUnder(facts) });
  }
  const photo = findPhoto(db, mark.photoId);
  if (!photo || photo.evaluationId !== facts.id || photo.removedAt !== null || photo.kind !== 'picture')
    throw new DomainError('not-found');
  const made = { id: mark.id, photoId: photo.id, seatId: seat.id, deviceId, ...madeUnder(facts), at };
  if (mark.kind === 'measure')
    return insertMeasurement(db, { ...made, ratio: mark.measurement.ratio, body: JSON.stringify(mark.measurement) });
  const { kind, from, to, note } = mark.pointer;
  insertPointer(db, { ...made, kind, x: from.x, y: from.y, toX: to.x, toY: to.y, note });
}
