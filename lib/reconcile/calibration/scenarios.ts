/** A kind of litter and panel to simulate, outside the model in that scores are rounded and clipped. SDs in units u. */
export type Scenario = {
  readonly key: string;
  readonly title: string;
  readonly puppies: number;
  readonly criteria: number;
  /** How many of the criteria are two-sided. */
  readonly twoSided: number;
  /** What seats see of a two-sided criterion: the puppy's degree; that, less their liking for the puppy as a whole; or its size, on a side of their own. */
  readonly degrees: 'shared' | 'liked' | 'opposite';
  readonly scale: { readonly low: number; readonly high: number };
  readonly litter: LitterSpread;
  readonly evaluators: readonly SimulatedEvaluator[];
  /** How the puppies' overall quality lies: normal, in two clusters, or one far ahead of others who are alike. All have the litter's SD. Normal when left out. */
  readonly shape?: 'clusters' | 'star';
  /** Added to every level: towards the ceiling of the scale. */
  readonly raised?: number;
  /** Scores are drawn together to the middle one and its neighbours. */
  readonly threeKeys?: boolean;
  /** True where its fault cannot be seen in the scores: measured and printed, held to no error. */
  readonly unseen?: boolean;
  /** How far pair accuracy and Brier score may fall short of the best prediction with the variances known. */
  readonly shortfall: number;
};

type LitterSpread = {
  readonly puppy: number;
  readonly puppyCriterion: number;
  readonly puppyDegree: number;
};

export type SimulatedEvaluator = {
  /** Fixed severity, or null to draw one. */
  readonly severity: number | null;
  readonly liking: number;
  readonly noise: number;
  /** Fixed lean on every two-sided criterion, on top of the drawn one. */
  readonly lean: number;
  readonly misses: Misses;
  /** Points it gives for one point it sees; what it rounds is stretched, noise and all. 1 when left out. */
  readonly slope?: number;
  /** Its level rises by this over the table order, first puppy to last. */
  readonly drift?: number;
  /** Seat (by place) whose score it gives instead of its own, in this share of the cells. */
  readonly copies?: { readonly seat: number; readonly share: number };
  /** Of how many criteria it takes the low end for the good one. */
  readonly reversed?: number;
};

/** Which cells an evaluator leaves out: a number of puppies, a share of the criteria, or a share of the cells at random. */
type Misses = { readonly puppies: number; readonly criteria: number; readonly cells: number };

/** What every scenario has alike: evaluators' severity, their severity per criterion, lean, and the criteria's levels. */
export const panelSpread = {
  evaluator: 0.5,
  evaluatorCriterion: 0.3,
  evaluatorLean: 0.4,
  criterionLevel: { mean: 0.4, sd: 0.5 },
  degreeLevel: 0.4,
};

const litter: LitterSpread = { puppy: 0.5, puppyCriterion: 0.45, puppyDegree: 0.7 };
const none: Misses = { puppies: 0, criteria: 0, cells: 0 };
const ordinary: SimulatedEvaluator = { severity: null, liking: 0.39, noise: 0.63, lean: 0, misses: none };
const panelOf = (count: number, but: readonly Partial<SimulatedEvaluator>[] = []): SimulatedEvaluator[] =>
  Array.from({ length: count }, (_, at) => ({ ...ordinary, ...but[at] }));

const plain: Omit<Scenario, 'key' | 'title'> = {
  puppies: 8,
  criteria: 12,
  twoSided: 0,
  degrees: 'shared',
  scale: { low: 1, high: 7 },
  litter,
  evaluators: panelOf(4),
  shortfall: 0.015,
};

export const scenarios: readonly Scenario[] = [
  { ...plain, key: 'plain', title: 'plain' },
  {
    ...plain,
    key: 'small',
    title: 'five puppies, three evaluators, 1-5',
    puppies: 5,
    scale: { low: 1, high: 5 },
    evaluators: panelOf(3),
  },
  { ...plain, key: 'two', title: 'two evaluators', evaluators: panelOf(2) },
  {
    ...plain,
    key: 'noisy',
    title: 'one noisy seat (3 x)',
    evaluators: panelOf(4, [{ noise: 3 * ordinary.noise }]),
    shortfall: 0.03,
  },
  { ...plain, key: 'severe', title: 'one severe seat', evaluators: panelOf(4, [{ severity: -1.5 }]) },
  {
    ...plain,
    key: 'partial',
    title: 'one partial seat (3.5 x)',
    evaluators: panelOf(4, [{ liking: 3.5 * ordinary.liking }]),
    shortfall: 0.03,
  },
  {
    ...plain,
    key: 'remote',
    title: 'two remote seats, a third of criteria unseen',
    evaluators: panelOf(4, [{ misses: { ...none, criteria: 1 / 3 } }, { misses: { ...none, criteria: 1 / 3 } }]),
  },
  {
    ...plain,
    key: 'missing',
    title: 'a quarter missing at random',
    evaluators: panelOf(4).map((seat) => ({ ...seat, misses: { ...none, cells: 0.25 } })),
  },
  {
    ...plain,
    key: 'late',
    title: 'late severe mentor, misses 4 of 9',
    puppies: 9,
    evaluators: panelOf(4, [{ severity: -1.5, misses: { ...none, puppies: 4 } }]),
  },
  {
    ...plain,
    key: 'opposite',
    title: 'two opposite seats, each misses some',
    evaluators: panelOf(4, [
      { severity: -1.2, misses: { ...none, puppies: 3 } },
      { severity: 1.2, misses: { ...none, puppies: 3 } },
    ]),
  },
  { ...plain, key: 'flat', title: 'flat litter', litter: { puppy: 0.08, puppyCriterion: 0.2, puppyDegree: 0.3 } },
  {
    ...plain,
    key: 'degrees',
    title: 'five two-sided criteria, seats lean apart',
    twoSided: 5,
    evaluators: panelOf(4, [{ lean: 1 }, { lean: -1 }]),
  },
  {
    ...plain,
    key: 'lean',
    title: 'two-sided, one leaning seat misses 3',
    twoSided: 5,
    evaluators: panelOf(4, [{ lean: 1, severity: -1, misses: { ...none, puppies: 3 } }]),
  },
  { ...plain, key: 'halo', title: 'liking acts on two-sided criteria of both signs', twoSided: 8, degrees: 'liked' },
  { ...plain, key: 'sides', title: 'seats see a fault on opposite sides', twoSided: 8, degrees: 'opposite' },
  {
    ...plain,
    key: 'copier',
    title: 'one seat repeats another in 90%',
    evaluators: panelOf(4, [{}, { copies: { seat: 0, share: 0.9 } }]),
    shortfall: 0.06,
  },
  {
    ...plain,
    key: 'followers',
    title: 'two of five follow a mentor in 60%',
    evaluators: panelOf(5, [{}, { copies: { seat: 0, share: 0.6 } }, { copies: { seat: 0, share: 0.6 } }]),
    shortfall: 0.06,
  },
  {
    ...plain,
    key: 'copier-40',
    title: 'one seat repeats another in 40%',
    evaluators: panelOf(4, [{}, { copies: { seat: 0, share: 0.4 } }]),
    shortfall: 0.06,
    unseen: true,
  },
  {
    ...plain,
    key: 'slopes',
    title: 'seats use 0.4 to 1.8 of the scale',
    evaluators: panelOf(4, [{ slope: 0.4 }, { slope: 0.8 }, { slope: 1.2 }, { slope: 1.8 }]),
    shortfall: 0.06,
  },
  {
    ...plain,
    key: 'drift',
    title: 'one seat drifts by a point and a half over the table',
    evaluators: panelOf(4, [{ drift: 1.5 }]),
    shortfall: 0.04,
  },
  {
    ...plain,
    key: 'day-drift',
    title: 'all seats drift alike over the table',
    evaluators: panelOf(4).map((seat) => ({ ...seat, drift: 1.5 })),
    shortfall: 0.1,
    unseen: true,
  },
  {
    ...plain,
    key: 'reversed',
    title: 'one seat scores two criteria upside down',
    evaluators: panelOf(4, [{ reversed: 2 }]),
    shortfall: 0.06,
  },
  { ...plain, key: 'clusters', title: 'puppies in two clusters', shape: 'clusters', shortfall: 0.04 },
  { ...plain, key: 'star', title: 'one star, the others alike', shape: 'star', shortfall: 0.04 },
  { ...plain, key: 'ceiling', title: 'scores near the ceiling', raised: 1.6, shortfall: 0.06 },
  { ...plain, key: 'three-keys', title: 'seats use three keys', threeKeys: true, shortfall: 0.08 },
  { ...plain, key: 'wide', title: 'twelve puppies, criteria and evaluators', puppies: 12, evaluators: panelOf(12) },
];

/** For second looks: three seats that scored, and three that come to the looks alone. */
export const lookScenario: Scenario = {
  ...plain,
  key: 'looks',
  title: 'three seats and three newcomers',
  evaluators: panelOf(6).map((seat, at) => (at < 3 ? seat : { ...seat, misses: { ...none, cells: 1 } })),
};

/** For batches of second looks and the agenda: a small panel, all of whose seats scored and look. */
export const smallPanel: Scenario = {
  ...plain,
  key: 'small-panel',
  title: 'six puppies, three evaluators, six criteria',
  puppies: 6,
  criteria: 6,
  evaluators: panelOf(3),
};
