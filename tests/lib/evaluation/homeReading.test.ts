import { expect, it } from 'vitest';
import type { Snapshot } from '#lib/contract/snapshot';
import { homeReading } from '#lib/evaluation/homeReading';
import { fullSheet } from '#lib/sheet/shippedSheets';
import { fern, id, moss, snapshotOf } from '#tests/support/evaluationFacts';

const score = (criterion: string, value: number | null, subject = id('1a')): Snapshot['answers'][number] => ({
  seatId: id('2'),
  subject,
  field: `score:${criterion}`,
  counter: 1,
  body: { kind: 'score', criterion, value, cannotJudge: value === null },
});
const read = (answers: Snapshot['answers'], puppyId = fern.id) =>
  homeReading(snapshotOf({ sheet: fullSheet, answers }), puppyId);

it.each([
  ['bowed, by the only seat', [score('front-legs', 2)], ['Front legs']],
  [
    'bowed, in the middle of three',
    [score('front-legs', 1), score('front-legs', 2), score('front-legs', 7)],
    ['Front legs'],
  ],
  ['not bowed, in the middle of two', [score('front-legs', 1), score('front-legs', 4)], []],
  ['mostly straight', [score('front-legs', 3)], []],
  ['knuckling', [score('pasterns-and-front-feet', -2)], ['Pasterns and front feet']],
  ['slightly upright', [score('pasterns-and-front-feet', -1)], []],
  ['sinking', [score('pasterns-and-front-feet', 3)], []],
  ['a hock that slips', [score('hock-and-rear-pastern', 1)], ['Hock and rear pastern']],
  ['low in what is no joint', [score('forechest', 1), score('hind-feet', 1), score('rear-from-behind', -3)], []],
  ['not judged', [score('front-legs', null)], []],
  ['of another puppy', [score('front-legs', 1, id('1b'))], []],
  ['at the silent second showing', [score('front-legs', 1, id('2a'))], []],
] as const)('SA3: for a veterinary surgeon to see, of scores that are %s', (_case, answers, told) => {
  expect(read([...answers]).toShow.map(({ criterion }) => criterion)).toEqual(told);
});

it('SA3: what is told is the sheet’s own words for that end, and the criteria it is told of ask for a veterinary surgeon themselves', () => {
  expect(read([score('hock-and-rear-pastern', 1)]).toShow[0]?.words).toContain('slips forward');
  expect(read([score('pasterns-and-front-feet', -3)]).toShow[0]?.words).toContain('tipping forward');
  const asking = fullSheet.criteria
    .filter(({ later }) => later.includes('for a veterinary surgeon'))
    .map(({ key, twoSided }) => score(key, twoSided ? -3 : 1));
  expect(read(asking).toShow.length).toBe(asking.length);
  expect(asking.length).toBeGreaterThan(2);
});

it('ST4: a strength is what at least two seats have near the top, the best four first, as asked where a criterion has two sides', () => {
  expect(read([score('forechest', 7)]).strengths).toEqual([]);
  expect(read([score('forechest', 7), score('forechest', 4)]).strengths).toEqual([]);
  expect(read([score('neck', 1), score('neck', -2)]).strengths).toEqual([]);
  expect(read([score('neck', 1), score('neck', -1)]).strengths).toEqual([
    { criterion: 'Neck', words: expect.stringContaining('as the breed asks') as string },
  ]);
  const many = ['forechest', 'hind-feet', 'front-legs', 'hock-and-rear-pastern'].flatMap((key) => [
    score(key, 6),
    score(key, 6),
  ]);
  const best = read([...many, score('spring-of-rib', 0), score('spring-of-rib', 0)]).strengths;
  expect(best.length).toBe(4);
  expect(best[0]?.criterion).toBe('Spring of rib');
  expect(read(many, moss.id)).toEqual({ toShow: [], strengths: [] });
});
