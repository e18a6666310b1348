import type { Criterion } from '../criterion';

/** Looked down on, and confirmed with both hands. */
export const above: readonly Criterion[] = [
  {
    key: 'spring-of-rib',
    name: 'Spring of rib',
    view: 'above',
    twoSided: true,
    handsOnly: true,
    anchors: {
      tooLittle: 'Flat sides under the hands, or a cage that ends early.',
      asked: 'Curve and length of the rib cage as the breed asks.',
      tooMuch: 'Round as a barrel for this breed, pushing the elbows out.',
    },
    labels: { tooLittle: 'too flat', tooMuch: 'too round' },
    why: 'The ribs make room for heart and lungs and decide how the elbows lie.',
    steadiness: { level: 'medium', note: 'It has to be felt: fat and coat round off a flat side.' },
    later: 'The cage goes on filling after the legs have stopped growing.',
    evidence: ['hands'],
  },
];
