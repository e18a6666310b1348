import type { PhotoFace } from '../contract/photo';
import type { ShotKey } from '../photo/shot';

/** What is stored of a picture, as far as a view needs it. */
export type StoredPhoto = {
  readonly id: string;
  readonly puppyId: string;
  readonly view: ShotKey;
  readonly kind: 'picture' | 'clip';
  readonly takenAt: number;
  readonly width: number;
  readonly height: number;
  readonly placeholder: string;
  readonly fair: boolean;
  readonly keeper: boolean;
  readonly seatId: string | null;
};

/** BL2: a picture for one viewer, field by field: nothing of its files, nor of who else brought it. */
export function photoFace(photo: StoredPhoto, viewerSeatId: string | null): PhotoFace {
  return {
    id: photo.id,
    puppyId: photo.puppyId,
    view: photo.view,
    kind: photo.kind,
    takenAt: photo.takenAt,
    width: photo.width,
    height: photo.height,
    placeholder: photo.placeholder,
    fair: photo.fair,
    keeper: photo.keeper,
    own: photo.seatId === viewerSeatId,
  };
}
