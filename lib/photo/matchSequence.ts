import type { ShotKey } from './shot';

/** Whose picture, and from where. */
export type Match = { readonly puppyId: string; readonly view: ShotKey };

export type SequenceOrder = 'puppy by puppy' | 'view by view';

type Sequence = { readonly puppyIds: readonly string[]; readonly views: readonly ShotKey[]; readonly order: SequenceOrder };

/** The order in which pictures were most likely taken: every view of one puppy and then the next, or one view of every puppy. */
export function plannedMatches({ puppyIds, views, order }: Sequence): readonly Match[] {
  if (order === 'puppy by puppy') return puppyIds.flatMap((puppyId) => views.map((view) => ({ puppyId, view })));
  return views.flatMap((view) => puppyIds.map((puppyId) => ({ puppyId, view })));
}

/**
 * Matches for so many pictures from a place of the plan on; one plan after the other, when there are more pictures than
 * places. Worked example: 3 pictures from place 1 of a plan of 2 places are its places 1, 0, 1.
 */
export function matchFrom(plan: readonly Match[], start: number, count: number): Match[] {
  if (plan.length === 0) return [];
  return Array.from({ length: count }, (_, index) => plan[(start + index) % plan.length]).filter((match) => match !== undefined);
}

/** Corrects one picture; with `onwards` those after it go on from there in the plan, too. */
export function rematch(matches: readonly Match[], plan: readonly Match[], { at, match, onwards }: { readonly at: number; readonly match: Match; readonly onwards: boolean }): Match[] {
  const place = plan.findIndex((one) => one.puppyId === match.puppyId && one.view === match.view);
  if (!onwards || place < 0) return matches.map((one, index) => (index === at ? match : one));
  return [...matches.slice(0, at), ...matchFrom(plan, place, matches.length - at)];
}
