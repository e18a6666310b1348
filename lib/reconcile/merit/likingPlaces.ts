import type { PanelDesign } from './panelDesign';

/**
 * Where a liking comes from: the pair's own draw where the seat scored the puppy; else a fresh draw with the seat's liking SD, or
 * with an SD drawn from the panel's (`sdDraw`) when the seat scored nothing. `draw` and `sdDraw` number extra standard normals.
 */
export type LikingSource =
  | { readonly kind: 'scored'; readonly pair: number }
  | { readonly kind: 'fresh'; readonly seat: number; readonly draw: number }
  | { readonly kind: 'stranger'; readonly draw: number; readonly sdDraw: number };

export type LikingPlaces = {
  /** Place of a seat's liking of a puppy among `likings`; the same one each time it is asked for. */
  placeOf(evaluator: string, puppy: number): number;
  readonly likings: readonly LikingSource[];
  /** Extra standard normals one joint draw takes so far. */
  extra(): number;
};

/** Gives each distinct seat-puppy liking one place in the joint draws. */
export function createLikingPlaces(design: PanelDesign): LikingPlaces {
  const likings: LikingSource[] = [];
  const places = new Map<string, number>();
  const strangers = new Map<string, number>();
  let extra = 0;
  const sourceOf = (evaluator: string, puppy: number): LikingSource => {
    const seat = design.seats.indexOf(evaluator);
    const pair = design.pairs.puppies.findIndex((other, at) => other === puppy && design.pairs.seats[at] === seat);
    if (pair >= 0) return { kind: 'scored', pair };
    if (seat >= 0) return { kind: 'fresh', seat, draw: extra++ };
    const sdDraw = strangers.get(evaluator) ?? extra++;
    strangers.set(evaluator, sdDraw);
    return { kind: 'stranger', draw: extra++, sdDraw };
  };
  return {
    placeOf(evaluator, puppy) {
      const key = JSON.stringify([evaluator, puppy]);
      const place = places.get(key) ?? likings.push(sourceOf(evaluator, puppy)) - 1;
      places.set(key, place);
      return place;
    },
    likings,
    extra: () => extra,
  };
}
