/** What is photographed of each puppy: seven views, the bite, and a clip of it standing by itself. */
export const shotKeys = ['left-side', 'right-side', 'front', 'rear', 'above', 'head-side', 'head-front', 'bite', 'free-stance'] as const;
export type ShotKey = (typeof shotKeys)[number];

export type Shot = {
  readonly name: string;
  readonly how: string;
  /** A clip of up to 30 seconds instead of a picture. */
  readonly clip: boolean;
};

/** How each is taken: common practice, no source. */
export const shots: Readonly<Record<ShotKey, Shot>> = {
  'left-side': { name: 'Left side', how: 'Set up, square on. Camera at the middle of the body, level, two metres away.', clip: false },
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
