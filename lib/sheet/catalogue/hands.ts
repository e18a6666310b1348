import type { Criterion } from '../criterion';

/** Best judged under the hand, though a picture shows a part of it. */
export const hands: readonly Criterion[] = [
  {
    key: 'bone-and-substance',
    name: 'Bone and substance',
    view: 'hands',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Thin below the elbow, slight in body for the breed.',
      asked: 'Thickness of leg and mass of body as the breed asks.',
      tooMuch: 'Coarse or heavy for the breed.',
    },
    labels: { tooLittle: 'too fine', tooMuch: 'too heavy' },
    why: 'Bone must carry the adult; more than the breed asks only adds load.',
    steadiness: {
      level: 'medium',
      note: 'Close a finger and thumb round the leg. A heavy puppy is not the same as a well-boned one.',
    },
    later: 'Legs look finer in proportion as they lengthen.',
    evidence: ['hands', 'set-up', 'photograph'],
  },
  {
    key: 'coat-and-colour',
    name: 'Coat and colour',
    view: 'hands',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Thinner, shorter or softer than the breed asks, or colour and pigment short of it.',
      asked: 'Texture, density, colour and markings as the breed asks at this age.',
      tooMuch: 'Longer, thicker or woollier than the breed asks, or more white or dark than it allows.',
    },
    labels: { tooLittle: 'too little', tooMuch: 'too much' },
    why: 'The coat protects the dog and marks the breed. A rule on colour belongs under its check.',
    steadiness: { level: 'low', note: 'The puppy coat is only a hint of the one that follows.' },
    later: 'It is replaced between four and twelve months; many colours clear or darken and noses fill in.',
    evidence: ['hands', 'photograph', 'set-up'],
  },
];
