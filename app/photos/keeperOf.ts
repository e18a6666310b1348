import type { PhotoFace } from '#lib/contract/photo';
import type { ShotKey } from '#lib/photo/shot';

/** The picture of a view to look at first: the keeper, else the newest fair one, else the newest. */
export function keeperOf(photos: readonly PhotoFace[], puppyId: string, view: ShotKey): PhotoFace | undefined {
  const all = photos.filter((photo) => photo.puppyId === puppyId && photo.view === view);
  return all.find((photo) => photo.keeper) ?? all.findLast((photo) => photo.fair) ?? all.at(-1);
}
