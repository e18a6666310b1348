import type { Criterion } from '../criterion';

/** Seen from in front. */
export const front: readonly Criterion[] = [
  {
    key: 'front-legs',
    name: 'Front legs',
    view: 'front',
    twoSided: false,
    handsOnly: false,
    anchors: {
      low: 'Bowed, pinched together, loose at the elbow, or turned clearly in or out.',
      middle: 'Mostly straight; elbows or feet turn a little.',
      high: 'Straight and parallel, elbows close, and as far apart as the breed asks, no wider.',
    },
    labels: { low: 'not straight', middle: 'mostly', high: 'straight' },
    why: 'The front carries more than half of the weight; a straight leg spreads the load.',
    steadiness: {
      level: 'medium',
      note: 'Set the front feet first and parallel, then let go: the hands can hide what the puppy does by itself.',
    },
    later:
      'Feet that turn out a little often come straighter as the chest drops. A bowed leg is for a veterinary surgeon to look at.',
    evidence: ['free-stance', 'set-up', 'movement', 'photograph'],
    freeStance: true,
  },
  {
    key: 'pasterns-and-front-feet',
    name: 'Pasterns and front feet',
    view: 'front',
    twoSided: true,
    handsOnly: false,
    anchors: {
      tooLittle: 'Pastern bolt upright, or tipping forward at the joint.',
      asked: 'Slope of pastern and shape of foot as the breed asks, with some spring.',
      tooMuch: 'Pastern sinks back, the foot flat or spread.',
    },
    labels: { tooLittle: 'too upright', tooMuch: 'too sloping' },
    why: 'Pastern and foot take the shock of every step.',
    steadiness: { level: 'medium', note: 'Slippery ground spreads a foot. Look on a mat, and look from the side too.' },
    later:
      'Slack pasterns often firm with muscle and good footing. A joint that tips forward is for a veterinary surgeon to look at.',
    evidence: ['set-up', 'free-stance', 'movement', 'photograph'],
  },
  {
    key: 'forechest',
    name: 'Forechest',
    view: 'front',
    twoSided: false,
    handsOnly: false,
    anchors: {
      low: 'Flat or hollow: nothing to fill the palm between the points of shoulder.',
      middle: 'Some fill between the legs; the breastbone can just be felt.',
      high: 'Filled as the breed asks and not beyond, the breastbone easily found under the hand.',
    },
    labels: { low: 'hollow', middle: 'some fill', high: 'filled, as asked' },
    why: 'It goes with a well-placed front and gives the front muscles something to hold on to.',
    steadiness: { level: 'medium', note: 'Fat can fill a hollow. Feel for bone.' },
    later: 'It fills and widens until maturity.',
    evidence: ['hands', 'set-up', 'photograph'],
  },
];
