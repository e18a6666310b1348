import { findPhoto } from '#db/queries/findPhoto';
import { findPhotoByHash } from '#db/queries/findPhotoByHash';
import { insertPhoto } from '#db/queries/insertPhoto';
import { listPhotos } from '#db/queries/listPhotos';
import { picturesFolder } from '#db/picturesFolder';
import type { PhotoTag } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import { mayAddPhoto } from '#lib/evaluation/mayPhotograph';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { photoLimits } from '#lib/photo/photoLimits';
import type { ReadMedia } from '../media/readMedia';
import { removePicture, writePicture } from '../media/writePicture';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type NewPhoto = { readonly id: string; readonly tag: PhotoTag; readonly viewer: Viewer; readonly media: ReadMedia };

/** Throws unless this viewer may bring this picture now. */
export function checkNewPhoto(facts: EvaluationFacts, { tag, viewer }: Pick<NewPhoto, 'tag' | 'viewer'>): void {
  const seat = facts.seats.find((one) => one.id === viewer.seatId) ?? null;
  if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
  if (!mayAddPhoto(facts, { viewer, seat })) throw new DomainError('not-allowed');
  if (!facts.puppies.some((puppy) => puppy.id === tag.puppy)) throw new DomainError('not-found');
}

/**
 * Keeps a picture: its files first, then its row, so that no row is without files. The same id, or the same bytes in the
 * same evaluation, is the same picture (SC2). Answers the id it is kept under.
 */
export async function storePhoto(runtime: Runtime, photo: NewPhoto): Promise<string> {
  const { db, random } = runtime;
  const { tag, media } = photo;
  const known = keptAlready(runtime, photo);
  if (known !== null) return known;
  const folder = picturesFolder(db);
  const file = random.id();
  const thumb = media.thumb ? random.id() : null;
  try {
    await writePicture(folder, file, media.large);
    if (thumb !== null && media.thumb) await writePicture(folder, thumb, media.thumb);
    return writeEvaluation(runtime, tag.evaluation, ({ facts, at, touchAll }) => {
      checkNewPhoto(facts, photo);
      if (listPhotos(db, tag.evaluation).length >= photoLimits.perEvaluation) throw new DomainError('too-many', { most: photoLimits.perEvaluation });
      const { kind, contentType, width, height, placeholder, hash } = media;
      // A picture that was removed and is brought again is a new one.
      const id = findPhoto(db, photo.id) ? random.id() : photo.id;
      const row = { id, kind, contentType, width, height, placeholder, hash, file, thumb, seatId: photo.viewer.seatId };
      insertPhoto(db, { ...row, evaluationId: tag.evaluation, puppyId: tag.puppy, view: tag.view, takenAt: tag.taken, receivedAt: at, fair: tag.fair === 'yes' ? 1 : 0 });
      touchAll();
      return id;
    });
  } catch (error) {
    await removePicture(folder, file);
    if (thumb !== null) await removePicture(folder, thumb);
    throw error;
  }
}

/** The id under which this picture is kept already, or null. An id that belongs to another evaluation is taken. */
export function keptAlready({ db }: Runtime, { id, tag, media }: Omit<NewPhoto, 'media' | 'viewer'> & { readonly media: Pick<ReadMedia, 'hash'> | null }): string | null {
  const same = findPhoto(db, id);
  if (same && same.evaluationId !== tag.evaluation) throw new DomainError('in-use');
  if (same && same.removedAt === null) return same.id;
  return media ? (findPhotoByHash(db, tag.evaluation, media.hash)?.id ?? null) : null;
}
