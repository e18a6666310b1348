import type { PhotoFace, PhotoMarks } from '../contract/photo';
import type { ShotKey } from '../photo/shot';

/** What is stored of a picture, as far as a view needs it. */
type StoredPhoto = {
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

/**
 * Marks on pictures in an anonymous panel (BL9): what was pointed at and measured, never by whom or when. Each mark of another seat names itself in the
 * place of its seat, so that no two can be put together; one's own keep theirs.
 */
export function anonymousMarks({ pointers, measurements }: PhotoMarks, ownSeatId: string | null): PhotoMarks {
  return { pointers: nameless(pointers, ownSeatId), measurements: nameless(measurements, ownSeatId) };
}

function nameless<T extends { readonly id: string; readonly seat: string; readonly at: number }>(
  marks: readonly T[],
  ownSeatId: string | null,
): T[] {
  const told = marks.map((mark) => (mark.seat === ownSeatId ? mark : { ...mark, seat: mark.id, at: 0 }));
  return told.toSorted((one, other) => one.id.localeCompare(other.id));
}
