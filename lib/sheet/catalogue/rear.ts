import type { Criterion } from '../criterion';

/** Seen from behind. */
export const rear: readonly Criterion[] = [
  {
    key: 'rear-from-behind',
    name: 'Rear from behind',
    view: 'rear',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Hocks lean towards each other or the legs stand close.',
      asked: 'Hind legs parallel, and as far apart as the breed asks.',
      tooMuch: 'Hocks lean apart or the legs stand wide, toes pointing in.',
    },
    labels: { tooLittle: 'hocks in', tooMuch: 'hocks out' },
    why: 'A parallel rear pushes straight forward; a twisted one pushes sideways.',
    steadiness: { level: 'low', note: 'Loose joints let a young puppy stand oddly one minute and well the next.' },
    later: 'Often straighter by four to six months, once muscle holds the joints.',
    evidence: ['free-stance', 'set-up', 'movement', 'photograph'],
  },
  {
    key: 'hind-feet',
    name: 'Hind feet',
    view: 'rear',
    twoSided: false,
    handsOnly: false,
    anchors: {
      low: 'Flat or spread, with thin pads.',
      middle: 'Fairly close toes, pads of medium thickness.',
      high: 'Toes held together, thick pads, shaped as the breed asks and no tighter.',
    },
    labels: { low: 'flat, open', middle: 'fairly close', high: 'close, as asked' },
    why: 'A foot that spreads wears badly and tires the leg above it.',
    steadiness: { level: 'medium', note: 'Look on a mat, after the nails are trimmed.' },
    later: 'Feet look big for now: the legs will grow more than they do.',
    evidence: ['hands', 'set-up', 'photograph'],
  },
];
