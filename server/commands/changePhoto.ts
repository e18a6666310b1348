import { findPhoto } from '#db/queries/findPhoto';
import { listPhotos } from '#db/queries/listPhotos';
import type { PhotoRow } from '#db/queries/photoColumns';
import { picturesFolder } from '#db/picturesFolder';
import { updatePhoto } from '#db/queries/updatePhoto';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import { mayAddPhoto, mayChooseKeeper } from '#lib/evaluation/mayPhotograph';
import { scoredRounds } from '#lib/evaluation/scoredRounds';
import { toldAtOnce } from '#lib/evaluation/toldAtOnce';
import type { ShotKey } from '#lib/photo/shot';
import { removePicture } from '../media/writePicture';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type PhotoChange =
  | { readonly kind: 'place'; readonly puppyId: string; readonly view: ShotKey }
  | { readonly kind: 'fair'; readonly fair: boolean }
  | { readonly kind: 'keep' }
  | { readonly kind: 'remove' };

type Asked = { readonly evaluationId: string; readonly photoId: string; readonly viewer: Viewer; readonly change: PhotoChange };

/** Matches a picture to another puppy or view, says whether it is a fair one, makes it its view's keeper, or removes it for good. */
export async function changePhoto(runtime: Runtime, asked: Asked): Promise<void> {
  const { db } = runtime;
  const removed = writeEvaluation(runtime, asked.evaluationId, ({ facts, at, touchAll }) => {
    const photo = findPhoto(db, asked.photoId);
    if (!photo || photo.evaluationId !== facts.id || photo.removedAt !== null) throw new DomainError('not-found');
    allow(facts, photo, asked);
    apply(runtime, { photo, at }, asked.change);
    touchAll();
    return asked.change.kind === 'remove' ? [photo.file, photo.thumb] : [];
  });
  for (const file of removed) if (file !== null) await removePicture(picturesFolder(db), file);
}

function allow(facts: EvaluationFacts, photo: PhotoRow, { viewer, change }: Asked): void {
  const seat = facts.seats.find((one) => one.id === viewer.seatId) ?? null;
  if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
  if (!mayAddPhoto(facts, { viewer, seat })) throw new DomainError('not-allowed');
  // After the reveal a change of a picture may answer what is asked blind of its puppy; it waits.
  if (scoredRounds(facts).length > 0 && !toldAtOnce(facts)) throw new DomainError('still-open');
  if (change.kind === 'keep' && !mayChooseKeeper(facts, { viewer, seat })) throw new DomainError('wrong-phase');
  // After scores were seen a picture keeps its view, or the keeper of a view could be changed by moving pictures.
  if (change.kind === 'place' && photo.keeper === 1 && !mayChooseKeeper(facts, { viewer, seat })) throw new DomainError('wrong-phase');
  const mine = viewer.owner || (photo.seatId !== null && photo.seatId === viewer.seatId);
  if (change.kind === 'remove' && !mine) throw new DomainError('not-allowed');
  if (change.kind === 'place' && !facts.puppies.some((puppy) => puppy.id === change.puppyId)) throw new DomainError('not-found');
}

function apply({ db }: Runtime, { photo, at }: { readonly photo: PhotoRow; readonly at: number }, change: PhotoChange): void {
  switch (change.kind) {
    case 'place':
      return updatePhoto(db, photo.id, { puppyId: change.puppyId, view: change.view, ...(photo.puppyId === change.puppyId && photo.view === change.view ? {} : { keeper: 0 }) });
    case 'fair':
      return updatePhoto(db, photo.id, { fair: change.fair ? 1 : 0 });
    case 'remove':
      return updatePhoto(db, photo.id, { removedAt: at, keeper: 0 });
    case 'keep':
      for (const other of listPhotos(db, photo.evaluationId)) {
        if (other.puppyId === photo.puppyId && other.view === photo.view) updatePhoto(db, other.id, { keeper: other.id === photo.id ? 1 : 0 });
      }
  }
}
