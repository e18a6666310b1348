import { findPhoto } from '#db/queries/findPhoto';
import { findPhotoByHash } from '#db/queries/findPhotoByHash';
import { insertPhoto } from '#db/queries/insertPhoto';
import { listPhotos } from '#db/queries/listPhotos';
import type { PhotoTag } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import { mayAddPhoto } from '#lib/evaluation/mayPhotograph';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { photoLimits } from '#lib/photo/photoLimits';
import type { Media } from '../media/intake';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type NewPhoto = {
  readonly id: string;
  readonly tag: PhotoTag;
  readonly viewer: Viewer;
  readonly media: Media;
  /** Names of its files, which are written already. */
  readonly file: string;
  readonly thumb: string;
};

/** Throws unless this viewer may bring this picture now. */
export function checkNewPhoto(facts: EvaluationFacts, { tag, viewer }: Pick<NewPhoto, 'tag' | 'viewer'>): void {
  const seat = facts.seats.find((one) => one.id === viewer.seatId) ?? null;
  if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
  if (!mayAddPhoto(facts, { viewer, seat })) throw new DomainError('not-allowed');
  if (!facts.puppies.some((puppy) => puppy.id === tag.puppy)) throw new DomainError('not-found');
}

/**
 * Keeps a picture whose files are written: files first, then the row, so that no row is without files. The same id, or the same
 * bytes in the same evaluation, is the same picture (SC2): then `fresh` is false and its new files are not needed.
 */
export function storePhoto(runtime: Runtime, photo: NewPhoto): { readonly id: string; readonly fresh: boolean } {
  const kept = keptAlready(runtime, { ...photo, hash: photo.media.hash });
  return kept === null ? { id: insertRow(runtime, photo), fresh: true } : { id: kept.id, fresh: false };
}

function insertRow(runtime: Runtime, { id: wanted, tag, viewer, media, file, thumb }: NewPhoto): string {
  const { db, random } = runtime;
  return writeEvaluation(runtime, tag.evaluation, ({ facts, at, touchAll }) => {
    checkNewPhoto(facts, { tag, viewer });
    if (listPhotos(db, tag.evaluation).length >= photoLimits.perEvaluation) throw new DomainError('too-many', { most: photoLimits.perEvaluation });
    // A picture that was removed and is brought again is a new one.
    const id = findPhoto(db, wanted) ? random.id() : wanted;
    const row = { ...media, id, file, thumb: media.kind === 'picture' ? thumb : null, seatId: viewer.seatId };
    insertPhoto(db, { ...row, evaluationId: tag.evaluation, puppyId: tag.puppy, view: tag.view, takenAt: tag.taken, receivedAt: at, fair: tag.fair === 'yes' ? 1 : 0 });
    touchAll();
    return id;
  });
}

type Kept = { readonly id: string; readonly hash: string };

/** Id and hash under which this picture is kept already, or null. An id that belongs to another evaluation is taken. `hash` null asks by the id alone. */
export function keptAlready({ db }: Runtime, { id, tag, hash }: Pick<NewPhoto, 'id' | 'tag'> & { readonly hash: string | null }): Kept | null {
  const same = findPhoto(db, id);
  if (same && same.evaluationId !== tag.evaluation) throw new DomainError('in-use');
  if (same && same.removedAt === null) return { id: same.id, hash: same.hash };
  const twin = hash === null ? undefined : findPhotoByHash(db, tag.evaluation, hash);
  return twin && hash !== null ? { id: twin.id, hash } : null;
}
