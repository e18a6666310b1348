import { type Check, notExamined } from '../check';

/** With the lips lifted and the mouth opened. */
export const mouthChecks: readonly Check[] = [
  {
    key: 'bite',
    name: 'Bite',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'scissor', words: 'scissor', outcome: 'normal' },
      { key: 'as-asked', words: 'other, as the breed asks', outcome: 'normal', gap: true },
      { key: 'level', words: 'level (edge to edge)', outcome: 'watch', gap: true },
      { key: 'overshot', words: 'overshot (upper jaw ahead)', outcome: 'watch', gap: true },
      { key: 'undershot', words: 'undershot (lower jaw ahead)', outcome: 'not-normal', gap: true },
      { key: 'wry', words: 'wry (jaws not in line)', outcome: 'not-normal', gap: true },
      notExamined,
    ],
    help:
      'Lips up, mouth closed; front, then both sides. Most breeds ask for a scissor bite. A level one sometimes comes right as the head grows, ' +
      'an undershot one rarely does. Where the breed asks for another bite, say so.',
    caution: 'Teeth that touch the palate or a sore mouth are for a veterinary surgeon now.',
  },
  {
    key: 'palate',
    name: 'Palate',
    handsOnly: true,
    holdsKeep: true,
    answers: [
      { key: 'whole', words: 'whole as far as seen', outcome: 'normal' },
      { key: 'unsure', words: 'part not seen, or marked by a tooth', outcome: 'watch' },
      { key: 'gap', words: 'gap seen', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Open the mouth gently in good light and look along the roof to the back. Milk from the nose is a reason to look again.',
    caution: 'The back of the palate is easily missed; a veterinary surgeon has to see it.',
  },
];
