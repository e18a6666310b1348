import { invariant } from '#lib/invariant';
import type { LookAnswer, PurposeQuestion } from './panel';
import type { PanelDesign } from './panelDesign';

/** One answer, by position: of the purpose, the two puppies, and the answering seat's likings of them. */
export type PlannedLook = {
  readonly purpose: number;
  readonly first: number;
  readonly second: number;
  readonly firstLiking: number;
  readonly secondLiking: number;
  readonly choice: LookAnswer['choice'];
};

/**
 * Where a liking comes from: the pair's own draw where the seat scored the puppy; else a fresh draw with the seat's liking SD, or
 * with an SD drawn from the panel's (`sdDraw`) when the seat scored nothing. `draw` and `sdDraw` number extra standard normals.
 */
export type LikingSource =
  | { readonly kind: 'scored'; readonly pair: number }
  | { readonly kind: 'fresh'; readonly seat: number; readonly draw: number }
  | { readonly kind: 'stranger'; readonly draw: number; readonly sdDraw: number };

export type LookPlan = {
  readonly looks: readonly PlannedLook[];
  readonly likings: readonly LikingSource[];
  /** Extra standard normals one joint draw takes. */
  readonly extra: number;
};

/** Looks in canonical order (their order must not matter), each distinct seat-puppy liking once. */
export function lookPlan(looks: readonly LookAnswer[], design: PanelDesign, purposes: readonly PurposeQuestion[]): LookPlan {
  const likings: LikingSource[] = [];
  const places = new Map<string, number>();
  const strangers = new Map<string, number>();
  let extra = 0;
  const sourceOf = (seatKey: string, puppy: number): LikingSource => {
    const seat = design.seats.indexOf(seatKey);
    const pair = design.pairs.puppies.findIndex((other, at) => other === puppy && design.pairs.seats[at] === seat);
    if (pair >= 0) return { kind: 'scored', pair };
    if (seat >= 0) return { kind: 'fresh', seat, draw: extra++ };
    const sdDraw = strangers.get(seatKey) ?? extra++;
    strangers.set(seatKey, sdDraw);
    return { kind: 'stranger', draw: extra++, sdDraw };
  };
  const likingOf = (seatKey: string, puppy: number): number => {
    const key = JSON.stringify([seatKey, puppy]);
    const place = places.get(key) ?? likings.push(sourceOf(seatKey, puppy)) - 1;
    places.set(key, place);
    return place;
  };
  const planned = inCanonicalOrder(looks, design).map((look): PlannedLook => {
    const purpose = purposes.findIndex(({ key }) => key === look.purpose);
    invariant(purpose >= 0, `a second look names purpose ${look.purpose}, which the question does not have`);
    const [first, second] = [design.puppies.indexOf(look.first), design.puppies.indexOf(look.second)];
    invariant(first >= 0 && second >= 0, 'a second look names a puppy the panel does not have');
    const [firstLiking, secondLiking] = [likingOf(look.evaluator, first), likingOf(look.evaluator, second)];
    return { purpose, first, second, firstLiking, secondLiking, choice: look.choice };
  });
  return { looks: planned, likings, extra };
}

function inCanonicalOrder(looks: readonly LookAnswer[], design: PanelDesign): LookAnswer[] {
  const rank = (look: LookAnswer) => [
    design.seats.indexOf(look.evaluator), design.puppies.indexOf(look.first), design.puppies.indexOf(look.second),
  ];
  const name = (look: LookAnswer) => JSON.stringify([look.evaluator, look.purpose, look.choice]);
  return [...looks].sort((a, b) => {
    const [left, right] = [rank(a), rank(b)];
    const differs = left.findIndex((value, at) => value !== right[at]);
    if (differs >= 0) return (left[differs] ?? 0) - (right[differs] ?? 0);
    return name(a) < name(b) ? -1 : name(a) > name(b) ? 1 : 0;
  });
}
