import { type Check, notExamined } from '../check';

/** Seen and heard: coat rule, breathing, eyes, skin, gait. */
export const conditionChecks: readonly Check[] = [
  {
    key: 'colour-and-coat',
    name: 'Colour and coat',
    handsOnly: false,
    holdsKeep: false,
    answers: [
      { key: 'as-asked', words: 'as the breed allows', outcome: 'normal' },
      { key: 'may-change', words: 'may still change', outcome: 'watch' },
      { key: 'not-allowed', words: 'not allowed in the breed', outcome: 'not-normal' },
      notExamined,
      { key: 'does-not-apply', words: 'does not apply (no rule in the breed)', outcome: 'does-not-apply' },
    ],
    help: 'Only what the breed rules out: a colour, a marking, a coat length, missing pigment. Noses and eye rims may still fill in.',
    caution: 'Some colours go with poor hearing or sight; a veterinary surgeon can test for it.',
  },
  {
    key: 'breathing',
    name: 'Breathing',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'quiet', words: 'quiet, mouth closed, nostrils open', outcome: 'normal' },
      { key: 'noisy-after-play', words: 'noisy after play, then settles', outcome: 'watch' },
      { key: 'noisy-at-rest', words: 'noisy or hard work at rest, or nostrils narrow', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Listen at rest, and again after a minute of play. A short face is no excuse for noise.',
    caution: 'Noise at rest or hard breathing is for a veterinary surgeon now. No good point makes up for it.',
  },
  {
    key: 'eyes',
    name: 'Eyes',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'clear', words: 'clear and open, lids close', outcome: 'normal' },
      { key: 'wet', words: 'wet, a little red, or lids loose', outcome: 'watch' },
      { key: 'sore', words: 'cloudy, held shut, or lid rubs the eye', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Look at both in even light without touching. Their colour is no part of this check.',
    caution: 'Hereditary eye disease cannot be seen on a table; a veterinary surgeon has the means to look for it.',
  },
  {
    key: 'skin',
    name: 'Skin',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'clean', words: 'clean and whole', outcome: 'normal' },
      { key: 'dry-or-spotted', words: 'dry, spotted or scratched', outcome: 'watch' },
      { key: 'sore', words: 'sore, bare patches or damp folds', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Part the coat on belly, armpits, ears and any folds.',
    caution: 'Bare or itching patches may spread to people and dogs; wash hands and ask a veterinary surgeon.',
  },
  {
    key: 'gait',
    name: 'Gait',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'even', words: 'even, all four legs used', outcome: 'normal' },
      { key: 'unsteady', words: 'unsteady or very loose', outcome: 'watch' },
      { key: 'lame', words: 'lame, hopping or dragging a leg', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'On a floor that grips, let it follow someone. Looseness is common at this age; an uneven step is not.',
    caution: 'Stop if a leg is spared or hurts, and ask a veterinary surgeon.',
  },
];
