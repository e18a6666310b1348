/** The eleven checks: health and breed rules, answered in words of their own and never added to a score. */
export const checkKeys = [
  'testicles',
  'bite',
  'palate',
  'navel-and-groin',
  'tail',
  'dewclaws',
  'colour-and-coat',
  'breathing',
  'eyes',
  'skin',
  'gait',
] as const;
export type CheckKey = (typeof checkKeys)[number];

/** What any answer comes down to. None of them is a verdict: each says what was found on the day. */
export const checkOutcomes = ['normal', 'watch', 'not-normal', 'not-examined', 'does-not-apply'] as const;
type CheckOutcome = (typeof checkOutcomes)[number];

export type CheckAnswer = {
  readonly key: string;
  readonly words: string;
  readonly outcome: CheckOutcome;
  /** True where a gap between the teeth, in millimetres, may be added as detail. */
  readonly gap?: true;
};

export type Check = {
  readonly key: CheckKey;
  readonly name: string;
  /** Not offered to a seat that cannot touch. */
  readonly handsOnly: boolean;
  /** True where watch or not normal holds a show or breeding keep until a veterinary surgeon has answered. */
  readonly holdsKeep: boolean;
  /** Made on puppies of this sex alone. */
  readonly onlyIn?: 'dog' | 'bitch';
  readonly answers: readonly CheckAnswer[];
  readonly help: string;
  readonly caution: string;
};

/** Offered by every check: nobody is made to guess. */
export const notExamined: CheckAnswer = { key: 'not-examined', words: 'not examined', outcome: 'not-examined' };
