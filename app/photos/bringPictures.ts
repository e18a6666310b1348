import type { Match } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { pictureId, shrinkPicture } from '../_data/shrinkPicture';

type Bring = { readonly queue: PhotoQueue; readonly evaluationId: string; readonly seat: string };

type Brought = { readonly file: File; readonly match: Match };

/** Makes each picture small and hands it to the queue, one after the other, so that a telephone holds one large picture at a time. */
export async function bringPictures(
  { queue, evaluationId, seat }: Bring,
  pictures: readonly Brought[],
  onOne: (done: number) => void = () => undefined,
): Promise<void> {
  for (const [index, { file, match }] of pictures.entries()) {
    const { bytes, type } = await shrinkPicture(file);
    await queue.add({
      id: pictureId(evaluationId, bytes),
      evaluationId,
      seat,
      puppyId: match.puppyId,
      view: match.view,
      takenAt: file.lastModified,
      fair: true,
      name: file.name,
      bytes,
      type,
      addedAt: Date.now(),
      code: null,
    });
    onOne(index + 1);
  }
}
