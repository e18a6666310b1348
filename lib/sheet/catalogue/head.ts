import type { Criterion } from '../criterion';

/** The head, from the side and from in front. */
export const head: readonly Criterion[] = [
  {
    key: 'head-proportion',
    name: 'Head proportion and planes',
    view: 'head',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Muzzle short for the skull, often with a deep stop.',
      asked:
        'Muzzle, skull, stop and planes as the breed asks. In drop-eared retrieving heads the muzzle is about as long as the skull.',
      tooMuch: 'Muzzle long for the skull, often with little stop.',
    },
    labels: { tooLittle: 'muzzle short', tooMuch: 'muzzle long' },
    why: 'It makes the breed recognisable, and too short a muzzle costs breath.',
    steadiness: { level: 'medium', note: 'A ratio measured at eight weeks is a weak guide; compare littermates.' },
    later: 'The muzzle lengthens and the skull broadens for months.',
    evidence: ['photograph', 'set-up', 'hands'],
  },
  {
    key: 'ears',
    name: 'Ears',
    view: 'head',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Set low on the skull, or heavy and slow to lift.',
      asked:
        'Set, size and fold as the breed asks. In drop-eared retrieving heads the leather reaches the inner corner of the eye.',
      tooMuch: 'Set high on the skull, or small and light, lifting more than the breed asks.',
    },
    labels: { tooLittle: 'low or heavy', tooMuch: 'high or light' },
    why: 'Ears frame the expression and show where the skull is broad.',
    steadiness: { level: 'low', note: 'They move with mood and with teething.' },
    later: 'Upright ears rise and drop again until four to seven months; the head grows into large ones.',
    evidence: ['free-stance', 'set-up', 'photograph'],
  },
  {
    key: 'eye-and-expression',
    name: 'Eye and expression',
    view: 'head',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Smaller or set deeper than the breed asks.',
      asked: 'Shape, set and rims as the breed asks, lids close to the eye.',
      tooMuch: 'Larger, rounder or fuller than the breed asks, or lids hang loose.',
    },
    labels: { tooLittle: 'small or deep', tooMuch: 'full or loose' },
    why: 'Shape and lids protect the eye, and the look is much of the breed.',
    steadiness: { level: 'medium', note: 'Shape reads better than colour at this age.' },
    later: 'Colour settles by three to six months, from a bluish start.',
    evidence: ['set-up', 'photograph'],
  },
  {
    key: 'muzzle-and-jaw',
    name: 'Muzzle and jaw',
    view: 'head',
    twoSided: false,
    handsOnly: false,
    anchors: {
      low: 'Pointed and weak below, a chin that falls away, or narrow nostrils.',
      middle: 'Some strength; the chin is there but slight, nostrils fairly open.',
      high: 'Filled and strong as the breed asks and no heavier, a firm chin, nostrils wide open.',
    },
    labels: { low: 'weak', middle: 'fair', high: 'strong, as asked' },
    why: 'The jaw has to hold the teeth in place and the nose has to let in air.',
    steadiness: { level: 'medium', note: 'The lower jaw grows at times of its own.' },
    later: 'Fill comes with age; how the teeth meet is followed under the bite check.',
    evidence: ['set-up', 'hands', 'photograph'],
  },
];
