/** What is photographed of each puppy: seven views, the bite, and a clip of it standing by itself. */
export const shotKeys = [
  'left-side',
  'right-side',
  'front',
  'rear',
  'above',
  'head-side',
  'head-front',
  'bite',
  'free-stance',
] as const;
export type ShotKey = (typeof shotKeys)[number];

type Shot = {
  readonly name: string;
  readonly how: string;
  /** A clip of up to 30 seconds instead of a picture. */
  readonly clip: boolean;
};

/** How each is taken: common practice, no source. */
export const shots: Readonly<Record<ShotKey, Shot>> = {
  'left-side': {
    name: 'Left side',
    how: 'Set up, square on. Camera at the middle of the body, level, two metres away.',
    clip: false,
  },
  'right-side': { name: 'Right side', how: 'The same from the other side, same table, same light.', clip: false },
  front: { name: 'Front', how: 'Straight in front, camera at chest height. Feet as they were set.', clip: false },
  rear: { name: 'Rear', how: 'Straight behind, camera at hock to croup height. Tail out of the way.', clip: false },
  above: { name: 'Above', how: 'Straight down over the back. Hands out of the outline.', clip: false },
  'head-side': { name: 'Head, side', how: 'Head level, camera level with the eye, a metre or more away.', clip: false },
  'head-front': { name: 'Head, front', how: 'Looking at the lens, ears at rest.', clip: false },
  bite: { name: 'Bite', how: 'Lips lifted, teeth closed. One quick picture, then let go.', clip: false },
  'free-stance': { name: 'Free stance', how: 'A clip of up to 30 seconds: it stands and turns by itself.', clip: true },
};

/** Sides on which ratios of the body and head can be measured. */
export const measurableShots: readonly ShotKey[] = ['left-side', 'right-side', 'head-side'];

/** Whose picture, and from where. */
export type Match = { readonly puppyId: string; readonly view: ShotKey };

export type SequenceOrder = 'puppy by puppy' | 'view by view';

type Sequence = {
  readonly puppyIds: readonly string[];
  readonly views: readonly ShotKey[];
  readonly order: SequenceOrder;
};

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
  return Array.from({ length: count }, (_, index) => plan[(start + index) % plan.length]).filter(
    (match) => match !== undefined,
  );
}

/** Corrects one picture; with `onwards` those after it go on from there in the plan, too. */
export function rematch(
  matches: readonly Match[],
  plan: readonly Match[],
  { at, match, onwards }: { readonly at: number; readonly match: Match; readonly onwards: boolean },
): Match[] {
  const place = plan.findIndex((one) => one.puppyId === match.puppyId && one.view === match.view);
  if (!onwards || place < 0) return matches.map((one, index) => (index === at ? match : one));
  return [...matches.slice(0, at), ...matchFrom(plan, place, matches.length - at)];
}
