/**
 * Which puppy a device shows while somebody else moves the table. It follows; but never from under a finger, a drawer or a
 * field in use, and never away from a puppy it is in the midst of. Ids are of showings.
 */
export type Following = {
  readonly shown: string | null;
  /** The table as last heeded; null where there is none. The device follows while this is what it shows. */
  readonly table: string | null;
  /** What was left for the table, to be offered again. */
  readonly left: string | null;
  /** What was shown until a move that was not the person's own; null when what is shown is of her own choosing. */
  readonly broughtFrom: string | null;
};

export function startFollowing(table: string | null, first: string | null): Following {
  return { shown: table ?? first, table, left: null, broughtFrom: null };
}

/** held: a finger is down, a drawer is open or words are being typed. midst: the puppy shown is begun and not finished. */
export type Hands = { readonly held: boolean; readonly midst: boolean };

/** The table has moved. While held nothing changes: the move is heeded afterwards, when it is known what the hand did. */
export function hearTable(state: Following, table: string | null, { held, midst }: Hands): Following {
  if (table === state.table || held) return state;
  const follows = state.shown === state.table || state.shown === null;
  if (!follows || midst || table === null || table === state.shown) return { ...state, table };
  return { shown: table, table, left: state.shown, broughtFrom: state.shown };
}

/** The person goes to a puppy herself; what she leaves for the table, or of the table, is offered again. */
export function goTo(state: Following, id: string): Following {
  const leaves = id !== state.shown && (id === state.table || state.shown === state.table);
  const left = leaves ? state.shown : state.left === id ? null : state.left;
  return { ...state, shown: id, left, broughtFrom: null };
}

export function forgetLeft(state: Following): Following {
  return { ...state, left: null };
}

/** How a seat stands with one puppy: questions answered or words written, obligatory ones open, and the question it is at. */
export type Progress = {
  readonly said: boolean;
  readonly missing: number;
  readonly place: number;
  readonly steps: number;
};

/** Begun, by an answer or by moving on, and neither answered throughout nor left at its end. */
export function isInMidst({ said, missing, place, steps }: Progress): boolean {
  return (said || place > 0) && missing > 0 && place < steps;
}

/** As long as the eye needs to see that the puppy has changed and the thumb to stop. */
export const settleMs = 700;

/**
 * Whether a press may have been meant for the puppy before. Times in milliseconds of one clock: when the finger came down,
 * and when what is shown was first on the screen, null while it has not been.
 */
export function isUnsure({ broughtFrom }: Following, seenAt: number | null, downAt: number): boolean {
  return broughtFrom !== null && (seenAt === null || downAt - seenAt < settleMs);
}

/** When a key was pressed, and which. */
export type Press = { readonly key: string; readonly at: number };

const againMs = 600;

/** The second half of a double tap on one key: it must not take back what the first half said. */
export function isSecondTap(last: Press | null, press: Press): boolean {
  return last !== null && last.key === press.key && press.at - last.at < againMs;
}

/** When and where a finger touched the screen, in px. */
export type Touch = { readonly at: number; readonly x: number; readonly y: number };

const bounceMs = 450;
const thumbPx = 24;

/** The second half of a double tap in one place, whatever has come under the thumb meanwhile. */
export function isSamePlace(last: Touch | null, touch: Touch): boolean {
  return last !== null && touch.at - last.at < bounceMs && Math.hypot(touch.x - last.x, touch.y - last.y) < thumbPx;
}
