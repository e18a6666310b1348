import { describe, expect, it } from 'vitest';
import { lessonView, type PracticeCard, practiceView } from '#lib/blind/lessonView';
import { lessonViewSchema } from '#lib/contract/lesson';
import { practiceViewSchema } from '#lib/contract/practice';
import type { Snapshot } from '#lib/contract/snapshot';
import { usualPlan } from '#lib/contract/plan';
import {
  coOwner,
  factsAt,
  fern,
  id,
  mentor,
  moss,
  snapshotOf,
  sorrel,
  tableHand,
} from '#tests/support/evaluationFacts';

const seats = { learner: coOwner.id, mentor: mentor.id };
type Answers = Snapshot['answers'];
const score = (seatId: string, subject: string, criterion: string, value: number): Answers[number] => ({
  seatId,
  subject,
  field: `score:${criterion}`,
  counter: 1,
  body: { kind: 'score', criterion, value, cannotJudge: false },
});
const choice = (seatId: string, puppy: string | null, slotId = id('6')): Answers[number] => ({
  seatId,
  subject: slotId,
  field: 'choice',
  counter: 1,
  body: { kind: 'choice', puppy, reason: 'quince', chance: 60 },
});
const showings = [id('1a'), id('1b'), id('1c')];

/** The learner reads four criteria of six farther and farther from the mentor, the more so the later the criterion. */
const keys = ['shoulder-layback', 'upper-arm', 'front-legs', 'neck', 'body-length', 'ears'];
const apart = [0, 0, 0, 1, 2, 3];
const readApart: Answers = keys.flatMap((key, at) =>
  showings.flatMap((showing, place) => [
    score(mentor.id, showing, key, place === 0 && at === 0 ? 1 : 0),
    score(coOwner.id, showing, key, apart[at] ?? 0),
  ]),
);
const purposes: Snapshot['purposes'] = [
  { key: 'working', weights: { ears: 1 } },
  { key: 'keep', weights: { neck: 3, 'body-length': 1 } },
];

describe('the lesson’s page', () => {
  it('BL2: tells what was chosen and what parted it, and of the cards nothing else', () => {
    const slots = snapshotOf().slots.slice(0, 1);
    // On the neck, which weighs most, the two lead another puppy each.
    const parting = [
      score(coOwner.id, id('1a'), 'neck', 0),
      score(coOwner.id, id('1b'), 'neck', 3),
      score(mentor.id, id('1a'), 'neck', 3),
      score(mentor.id, id('1b'), 'neck', 0),
    ];
    const view = lessonView(
      snapshotOf({ slots, purposes, answers: [...parting, choice(coOwner.id, fern.id), choice(mentor.id, moss.id)] }),
      seats,
    );
    expect(lessonViewSchema.safeParse(view).error).toBeUndefined();
    expect(view).toMatchObject({
      ...seats,
      level: { undefined: 'too few data' },
      gap: { undefined: 'too few data' },
      lookAt: ['neck'],
    });
    expect(view.picks).toEqual([
      {
        slotId: id('6'),
        learnersPuppy: fern.id,
        mentorsPuppy: moss.id,
        by: [{ criterion: 'neck', share: 1 }],
        sentence: view.picks[0]?.sentence,
      },
    ]);
    expect(view.picks[0]?.sentence).toMatch(
      /^For place 1 the learner chose Fern, the mentor Moss\..*\bneck \(100 of 100 parts\)/,
    );
    expect(view.criteria.find(({ criterion }) => criterion === 'neck')).toEqual({
      criterion: 'neck',
      puppies: 2,
      difference: 0,
      expected: expect.any(Number) as number,
      beyond: false,
    });
    expect(JSON.stringify(view)).not.toContain('quince');
  });

  it.each([
    ['both chose one puppy', [choice(coOwner.id, fern.id), choice(mentor.id, fern.id)], fern.id, fern.id],
    ['the learner chose nobody', [choice(coOwner.id, null), choice(mentor.id, fern.id)], null, fern.id],
    ['the mentor said nothing', [choice(coOwner.id, fern.id)], fern.id, null],
    ['another seat chose', [choice(fern.id, fern.id)], null, null],
    [
      'they chose for another place',
      [choice(coOwner.id, fern.id, id('0')), choice(mentor.id, moss.id, id('0'))],
      null,
      null,
    ],
    [
      'one subject holds a score as well',
      [score(coOwner.id, id('6'), 'neck', 1), choice(coOwner.id, fern.id)],
      fern.id,
      null,
    ],
  ] as const)('BL2: nothing parts a pick where %s', (_case, answers, learnersPuppy, mentorsPuppy) => {
    const view = lessonView(snapshotOf({ purposes, answers: [...readApart, ...answers] }), seats);
    expect(view.picks[0]).toMatchObject({ learnersPuppy, mentorsPuppy, by: [] });
    expect(view.picks).toHaveLength(2);
  });

  it('ST4: what lies beyond chance is to be looked at, the widest first, three at most', () => {
    const view = lessonView(snapshotOf({ answers: readApart }), seats);
    expect(
      view.criteria
        .filter(({ beyond }) => beyond)
        .map(({ criterion }) => criterion)
        .toSorted(),
    ).toEqual(['body-length', 'ears', 'neck']);
    expect(view.lookAt).toEqual(['ears', 'body-length', 'neck']);
    expect(view.criteria).toHaveLength(snapshotOf().sheet.criteria.length);
    expect(view.sentences.join(' ')).toContain('Ears: the learner reads it 3.0 higher');
    expect(view.level).toEqual({
      value: expect.any(Number) as number,
      low: expect.any(Number) as number,
      high: expect.any(Number) as number,
    });
    expect(view.gap).toMatchObject({ value: expect.any(Number) as number });
  });

  it('ST4: what parted a pick comes before what lies beyond chance, each once', () => {
    const slots = snapshotOf().slots.slice(0, 1);
    // Of the upper arm each prefers its own puppy by a step, and both read it alike on average.
    const swapped = readApart.map((answer) => {
      const prefers = answer.seatId === mentor.id ? id('1b') : id('1a');
      return answer.field === 'score:upper-arm' && answer.subject === prefers
        ? score(answer.seatId, answer.subject, 'upper-arm', 1)
        : answer;
    });
    const lookAt = (weights: Snapshot['purposes'][number]['weights']) =>
      lessonView(
        snapshotOf({
          slots,
          purposes: [{ key: 'keep', weights }],
          answers: [...swapped, choice(coOwner.id, fern.id), choice(mentor.id, moss.id)],
        }),
        seats,
      ).lookAt;
    expect(lookAt({ 'upper-arm': 1 })).toEqual(['upper-arm', 'ears', 'body-length']);
    expect(lookAt({})).toEqual(['ears', 'body-length', 'neck']);
  });

  it('BL2: a place for a purpose that nobody weighed is parted by nothing', () => {
    const answers = [...readApart, choice(coOwner.id, fern.id), choice(mentor.id, moss.id)];
    expect(lessonView(snapshotOf({ purposes: [], answers }), seats).picks[0]).toMatchObject({
      learnersPuppy: fern.id,
      mentorsPuppy: moss.id,
      by: [],
    });
  });
});

describe('practice', () => {
  const first = { picture: 'first', criterion: 'neck', value: 1 } as const;
  const shoulder = { picture: 'first', criterion: 'shoulder-layback', value: 4 } as const;
  const later = { picture: 'second', criterion: 'neck', value: null } as const;
  const card = (
    seatId: string,
    own: boolean,
    answers: PracticeCard['answers'] = [shoulder, later, first],
  ): PracticeCard => ({ seatId, own, answers });
  const others = [card(sorrel.id, false, [shoulder]), card(moss.id, false, [first])];
  const offered = ['body-length', 'topline-and-loin', 'neck', 'shoulder-layback'];

  it('BL1: before its own lock a seat is shown nothing of the others’', () => {
    expect(practiceView(factsAt('preparing'), mentor, others)).toEqual({
      criteria: offered,
      open: true,
      own: null,
      others: null,
    });
  });

  it('BL9: a device of a reissued seat is shown neither the card locked before nor the others’', () => {
    expect(practiceView(factsAt('preparing'), mentor, [card(mentor.id, false), ...others])).toEqual({
      criteria: offered,
      open: false,
      own: null,
      others: null,
    });
  });

  it.each([
    ['preparing', tableHand],
    ['open', mentor],
    ['revealed', mentor],
  ] as const)('BL2: practice is over: %s, %o', (stage, seat) => {
    expect(practiceView(factsAt(stage), seat, []).open).toBe(false);
  });

  it('BL2: from its own lock on a seat is shown its card and the others’, field by field and in order', () => {
    const laden = [card(mentor.id, true), ...others].map((one) => ({
      ...one,
      answers: one.answers.map((answer) => ({ ...answer, quince: 'quince' })),
    }));
    const view = practiceView(factsAt('preparing'), mentor, laden);
    expect(practiceViewSchema.safeParse(view).error).toBeUndefined();
    expect(view).toEqual({
      criteria: offered,
      open: false,
      own: [first, shoulder, later],
      others: [
        { seat: moss.id, answers: [first] },
        { seat: sorrel.id, answers: [shoulder] },
      ],
    });
  });

  it('BL9: in an anonymous panel the others’ cards bear no seat, in an order of what they say', () => {
    const facts = factsAt('open', { plan: { ...usualPlan, discussion: 'anonymous' } });
    const told = [
      { seat: null, answers: [first] },
      { seat: null, answers: [shoulder] },
    ];
    for (const cards of [others, others.toReversed()])
      expect(practiceView(facts, mentor, [card(mentor.id, true), ...cards]).others).toEqual(told);
  });
});
