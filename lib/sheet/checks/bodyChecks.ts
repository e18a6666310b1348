import { type Check, notExamined } from '../check';

/** Found by hand: males, navel and groin, tail, dewclaws. */
export const bodyChecks: readonly Check[] = [
  {
    key: 'testicles',
    name: 'Testicles',
    handsOnly: true,
    holdsKeep: true,
    answers: [
      { key: 'both-felt', words: 'both felt', outcome: 'normal' },
      { key: 'one-felt', words: 'one felt', outcome: 'watch' },
      { key: 'none-felt', words: 'none felt', outcome: 'watch' },
      notExamined,
      { key: 'does-not-apply', words: 'does not apply (bitch)', outcome: 'does-not-apply' },
    ],
    help: 'Warm hands, puppy relaxed. Say what you feel today; they can slip back up. Feel again at 12 and at 16 weeks.',
    caution: 'Only a veterinary surgeon can say that one will not come down.',
  },
  {
    key: 'navel-and-groin',
    name: 'Navel and groin',
    handsOnly: true,
    holdsKeep: true,
    answers: [
      { key: 'flat', words: 'flat and closed', outcome: 'normal' },
      { key: 'soft-swelling', words: 'small soft swelling', outcome: 'watch' },
      { key: 'firm-swelling', words: 'large, firm or sore swelling', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Run a finger over the navel and both sides of the groin while the puppy stands. Do not push on a swelling.',
    caution: 'Any swelling is for a veterinary surgeon to look at; a firm or sore one the same day.',
  },
  {
    key: 'tail',
    name: 'Tail',
    handsOnly: true,
    holdsKeep: false,
    answers: [
      { key: 'straight', words: 'bones even to the tip', outcome: 'normal' },
      { key: 'as-asked', words: 'naturally short or curled, as the breed asks', outcome: 'normal' },
      { key: 'unsure', words: 'something felt, not sure', outcome: 'watch' },
      { key: 'kink', words: 'kink felt', outcome: 'not-normal' },
      { key: 'length', words: 'length the breed does not allow', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Slide finger and thumb along each bone to the tip. A kink does not grow out.',
    caution: 'A sore tail, or one the puppy cannot move, is for a veterinary surgeon to look at.',
  },
  {
    key: 'dewclaws',
    name: 'Dewclaws',
    handsOnly: true,
    holdsKeep: false,
    answers: [
      { key: 'as-asked', words: 'as the breed asks', outcome: 'normal' },
      { key: 'missing', words: 'fewer than the breed asks', outcome: 'watch' },
      { key: 'extra', words: 'more than the breed asks', outcome: 'watch' },
      { key: 'hurt', words: 'torn, loose or grown in', outcome: 'not-normal' },
      notExamined,
      { key: 'does-not-apply', words: 'does not apply (no rule in the breed)', outcome: 'does-not-apply' },
    ],
    help: 'Feel the inside of all four legs; coat hides them. Some breeds ask for them behind, some forbid them.',
    caution: 'Whether they may be removed depends on local law; ask a veterinary surgeon.',
  },
];
