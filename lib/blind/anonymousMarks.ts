import type { PhotoMarks } from '../contract/photo';

/**
 * Marks on pictures in an anonymous panel (BL9): what was pointed at and measured, never by whom or when. Each mark of another seat names itself in the
 * place of its seat, so that no two can be put together; one's own keep theirs.
 */
export function anonymousMarks({ pointers, measurements }: PhotoMarks, ownSeatId: string | null): PhotoMarks {
  return { pointers: nameless(pointers, ownSeatId), measurements: nameless(measurements, ownSeatId) };
}

function nameless<T extends { readonly id: string; readonly seat: string; readonly at: number }>(marks: readonly T[], ownSeatId: string | null): T[] {
  const told = marks.map((mark) => (mark.seat === ownSeatId ? mark : { ...mark, seat: mark.id, at: 0 }));
  return told.toSorted((one, other) => one.id.localeCompare(other.id));
}
