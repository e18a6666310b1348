import { describe, expect, it } from 'vitest';
import { boardView } from '#lib/blind/boardView';
import { boardViewSchema } from '#lib/contract/boardView';
import type { EntryBody } from '#lib/contract/entry';
import type { Snapshot } from '#lib/contract/snapshot';
import { entryField } from '#lib/evaluation/entries';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import type { EvaluatorResult, Merit, Reconciliation } from '#lib/reconcile/merit/reconciliation';
import {
  breeder,
  coOwner,
  fern,
  id,
  mentor,
  moss,
  photographer,
  snapshotOf,
  sorrel,
  tableHand,
} from '#tests/support/evaluationFacts';

type Revealed = Parameters<typeof boardView>[0];
const estimate = { value: 0.5, sd: 0.1, low: 0.25, high: 0.75 };
const none = { undefined: 'too few data' };
const quince = { quince: 'quince' };
const [keep, working] = [id('6'), id('9')];

const said = (body: EntryBody, subject = id('1a'), seatId = mentor.id): Snapshot['answers'][number] => ({
  seatId,
  subject,
  field: entryField(body),
  counter: 1,
  body,
});
const score = (criterion: string, value: number | null, cannotJudge = false): EntryBody => ({
  kind: 'score',
  criterion,
  value,
  cannotJudge,
});
const meritOf = (puppy: string, first: number): Merit => ({
  puppy,
  estimate: first,
  sd: 0.5,
  low: -1,
  high: 2,
  halfLow: 0,
  halfHigh: 1,
  mean: first,
  ranks: [first, 1 - first],
  ...quince,
});
const evaluatorOf = (evaluator: string): EvaluatorResult => ({
  evaluator,
  severity: estimate,
  liking: none,
  noise: { ...estimate, value: 0.7 },
  standsOut: { liking: 0.1, noise: 0.2 },
});

const reconciliation: Reconciliation = {
  engineVersion: 'test',
  looks: { answers: 4 },
  evaluators: [evaluatorOf(mentor.id), evaluatorOf(coOwner.id)],
  purposes: [
    {
      key: 'keep',
      merit: [meritOf(fern.id, 0.6), meritOf(moss.id, 0.4)],
      better: { [fern.id]: { [moss.id]: 0.6 }, [moss.id]: { [fern.id]: 0.4 } },
      level: estimate,
    },
  ],
  slots: [
    {
      key: keep,
      purpose: 'keep',
      chances: [
        { puppy: fern.id, probability: 0.6 },
        { puppy: moss.id, probability: 0.4 },
      ],
      close: true,
      closeBelow: 0.8,
      alike: 0.3,
      halfStep: 0.5,
      candidates: [
        { puppy: fern.id, probability: 0.6 },
        { puppy: moss.id, probability: 0.4 },
      ],
      filledBy: fern.id,
    },
    {
      key: working,
      purpose: 'working',
      chances: [{ puppy: sorrel.id, probability: 1 }],
      close: false,
      closeBelow: 0.8,
      alike: 0,
      halfStep: 0.5,
      candidates: [],
      filledBy: null,
    },
  ],
  agenda: [
    {
      flag: { kind: 'closeCall', slot: keep },
      between: [fern.id, moss.id],
      slot: keep,
      now: 0.6,
      settled: 0.8,
      gain: 0.2,
    },
    { flag: { kind: 'splitCheck', puppy: fern.id, check: 'bite' }, slot: keep, now: 0.6, settled: 0.7, gain: 0.1 },
    {
      flag: { kind: 'stackAgainstFree', puppy: moss.id, criterion: 'topline-and-loin', gap: 2 },
      slot: working,
      now: 0.5,
      settled: 0.6,
      gain: 0.1,
    },
    { flag: { kind: 'oddEvaluator', evaluator: coOwner.id, by: 'noise' }, slot: keep, now: 0.6, settled: 0.6, gain: 0 },
  ],
};

const answers = [
  said(score('neck', 3)),
  said(score('neck', -3), id('1a'), coOwner.id),
  said(score('neck', null, true), id('1b')),
  said(score('neck', null), id('1b'), coOwner.id),
  said(score('neck', 1), id('2a')),
  said(score('ears', 2)),
  said({ kind: 'choice', puppy: moss.id, reason: 'quick', chance: 60 }, keep),
  said({ kind: 'note', criterion: null, text: 'calm' }),
  said({ kind: 'overall', value: 5, cannotJudge: false }),
  said({ kind: 'check', check: 'bite', answer: 'level', detail: 'just' }),
  said({ kind: 'fair', fair: false, why: 'tired' }, id('1c')),
  said({ kind: 'free', criterion: 'ears', value: 1, cannotJudge: false }, id('1b')),
];

function revealed(change: Partial<Revealed> = {}): Revealed {
  const snapshot = change.snapshot ?? snapshotOf({ answers });
  return {
    snapshot,
    first: snapshot,
    second: null,
    panel: panelFromSnapshot(snapshot),
    reconciliation,
    bands: { neck: 'low' },
    profiles: [],
    questions: { identical: [], reversed: [], scaleUse: [] },
    holds: [],
    lateEntries: 2,
    restores: [],
    anonymous: false,
    viewerSeatId: mentor.id,
    looks: [],
    batches: { used: {}, agreed: 3 },
    ...change,
  };
}

function shown(change: Partial<Revealed> = {}) {
  const view = boardView(revealed(change));
  expect(boardViewSchema.safeParse(view).error).toBeUndefined();
  expect(JSON.stringify(view)).not.toContain('quince');
  return view;
}

describe('the board of a panel by roles', () => {
  it('BL2: purposes are told field by field, with the sentence beside each', () => {
    const [purpose] = shown().purposes;
    const told = [fern, moss].map((puppy, at) => ({
      puppy: puppy.id,
      estimate: [0.6, 0.4][at],
      sd: 0.5,
      low: -1,
      high: 2,
      halfLow: 0,
      halfHigh: 1,
      mean: [0.6, 0.4][at],
      ranks: [
        [0.6, 0.4],
        [0.4, 1 - 0.4],
      ][at],
    }));
    expect(purpose).toEqual({
      key: 'keep',
      merit: told,
      better: { [fern.id]: { [moss.id]: 0.6 }, [moss.id]: { [fern.id]: 0.4 } },
      level: estimate,
      sentence: 'Fern comes first in 60 of 100 readings of these scores, Moss in 40: too close to call.',
      meanSentence: 'The plain mean gives the same order.',
    });
  });

  it('BL2: where the plain mean differs, the reason goes by the weights of that purpose', () => {
    const turned = [
      { ...meritOf(fern.id, 0.6), mean: 0.1 },
      { ...meritOf(moss.id, 0.4), mean: 0.4 },
    ];
    const purposes = reconciliation.purposes.map((purpose) => ({ ...purpose, merit: turned }));
    const weights = (key: 'keep' | 'working') =>
      snapshotOf({
        answers: [...answers.slice(0, 2), said(score('neck', 0), id('1b'))],
        purposes: [
          { key: 'companion', weights: {} },
          { key, weights: { neck: 1 } },
        ],
      });
    const sentence = (key: 'keep' | 'working') =>
      shown({ snapshot: weights(key), reconciliation: { ...reconciliation, purposes } }).purposes[0]?.meanSentence;
    expect(sentence('keep')).toContain('The plain mean puts Moss above Fern');
    expect(sentence('keep')).toContain('for the cells not scored');
    // Without weights for a keep nothing is counted, and so nothing is missing.
    expect(sentence('working')).not.toContain('for the cells not scored');
  });

  it('BL2: places are told with their chances, and where second looks stand', () => {
    const [first, second] = shown({ batches: { used: { [keep]: 1 }, agreed: 2 } }).slots;
    expect(first).toEqual({
      slotId: keep,
      chances: reconciliation.slots[0]?.chances,
      close: true,
      candidates: reconciliation.slots[0]?.candidates,
      filledBy: fern.id,
      sentence: 'Too close to call between Fern (60 of 100 readings) and Moss (40).',
      looks: {
        used: 1,
        agreed: 2,
        verdict: 'goOn',
        unlinked: 'No second look has compared any of Fern and Moss: between these only the scores speak.',
        sentence:
          'Still open between Fern and Moss: Fern is the best of those eligible in 60 of 100 readings of the scores and second looks. One batch of second looks is left.',
      },
    });
    expect(second).toMatchObject({
      slotId: working,
      close: false,
      candidates: [],
      filledBy: null,
      sentence: 'Sorrel is the only puppy eligible for this place.',
      looks: { used: 0, agreed: 2, verdict: 'settled', unlinked: null },
    });
  });

  it('BL2: nothing is said of looks alone before a batch is closed, nor of one candidate, nor where looks link them', () => {
    const unlinked = (change: Partial<Revealed>) => shown(change).slots.map(({ looks }) => looks.unlinked);
    expect(unlinked({})).toEqual([null, null]);
    expect(unlinked({ batches: { used: { [keep]: 0, [working]: 1 }, agreed: 3 } })).toEqual([null, null]);
    const look = { evaluator: mentor.id, purpose: 'keep', first: fern.id, second: moss.id, choice: 'first' } as const;
    expect(unlinked({ looks: [look], batches: { used: { [keep]: 1 }, agreed: 3 } })).toEqual([null, null]);
  });

  it('BL2: what is worth talking about is told by what it is about', () => {
    const lines = shown().agenda;
    expect(lines.map(({ sentence: _sentence, ...line }) => line)).toEqual([
      { kind: 'closeCall', puppy: null, criterion: null, slotId: keep, now: 0.6, settled: 0.8 },
      { kind: 'splitCheck', puppy: fern.id, criterion: null, slotId: keep, now: 0.6, settled: 0.7 },
      {
        kind: 'stackAgainstFree',
        puppy: moss.id,
        criterion: 'topline-and-loin',
        slotId: working,
        now: 0.5,
        settled: 0.6,
      },
      { kind: 'oddEvaluator', puppy: null, criterion: null, slotId: keep, now: 0.6, settled: 0.6 },
    ]);
    const sentences = lines.map(({ sentence }) => sentence.split('. ')[0]);
    expect(sentences).toEqual([
      'Place 1 is too close to call',
      "The seats differ on Fern's bite: not all found it normal",
      `Moss's ${toplineName} was scored 2 steps apart stacked and standing freely`,
      'The co-owner scatters more than the others do',
    ]);
    expect(lines[2]?.sentence).toContain('place 2');
  });

  it('BL2: dots are every seat’s first scores and what it could not judge; of a second showing and of cleared scores none', () => {
    const neck = shown().criteria.find(({ criterion }) => criterion === 'neck');
    expect(neck).toEqual({
      criterion: 'neck',
      spread: 6,
      withinOne: 0,
      seats: 2,
      band: 'low',
      dots: [
        { puppy: fern.id, seat: mentor.id, value: 3, cannotJudge: false },
        { puppy: fern.id, seat: coOwner.id, value: -3, cannotJudge: false },
        { puppy: moss.id, seat: mentor.id, value: null, cannotJudge: true },
      ],
    });
    expect(
      shown()
        .criteria.map(({ criterion, band, dots }) => [criterion, band, dots.length])
        .filter(([, band, dots]) => band !== 'too-few' || dots !== 0),
    ).toEqual([
      ['neck', 'low', 3],
      ['ears', 'too-few', 1],
    ]);
    expect(shown().criteria).toHaveLength(snapshotOf().sheet.criteria.length);
  });

  it('BL2: cards, second showings, counts and the units of looks are told', () => {
    const view = shown({ holds: [{ puppyId: fern.id, check: 'bite', answers: ['level'], said: [], stands: true }] });
    expect(view).toMatchObject({
      roundId: id('f'),
      revealedAt: 1000,
      anonymous: false,
      lateEntries: 2,
      engineVersion: 'test',
      notLocked: [],
      second: null,
      checks: [
        { puppy: fern.id, check: 'bite', answers: [{ seat: mentor.id, answer: 'level', detail: 'just' }], holds: true },
      ],
      notes: [{ puppy: fern.id, seat: mentor.id, criterion: null, text: 'calm' }],
      asides: [
        { puppy: fern.id, seat: mentor.id, field: 'overall', value: 5 },
        { puppy: moss.id, seat: mentor.id, field: 'free:ears', value: 1 },
      ],
      choices: [{ slotId: keep, seat: mentor.id, puppy: moss.id, reason: 'quick', chance: 60 }],
      unfair: [{ puppy: sorrel.id, seat: mentor.id, why: 'tired' }],
      repeats: [{ puppy: fern.id, seat: mentor.id, cells: 1, alike: 0, shift: null, difference: 2 }],
      looks: { answers: 4 },
      lookSettings: { noise: 0.7, tieHalfWidth: 0.25 },
    });
    expect(view.blindTo).toHaveLength(4);
    const wide = snapshotOf({ sheet: { ...snapshotOf().sheet, scale: { low: 1, high: 10 } } });
    expect(shown({ snapshot: wide }).lookSettings).toEqual({ noise: 0.7 * 1.5, tieHalfWidth: 0.25 * 1.5 });
  });

  it('BL2: evaluators are told by severity, liking and noise, with what a profile could tell', () => {
    const figure = { value: 1, low: 0.5, high: 2 };
    const profiles = [
      {
        evaluator: mentor.id,
        scaleUse: figure,
        agreement: { ...figure, value: 0.9 },
        selfConsistency: { ...figure, value: 0.8 },
        drift: none,
        ...quince,
      },
    ];
    const [first, second] = shown({ profiles }).evaluators;
    expect(first).toEqual({
      seat: mentor.id,
      severity: estimate,
      liking: none,
      noise: { ...estimate, value: 0.7 },
      sentence: 'The mentor scores about half a point above the panel’s level (0.3 to 0.8 in 90 of 100 readings).',
      profile: {
        scaleUse: figure,
        agreement: { ...figure, value: 0.9 },
        selfConsistency: { ...figure, value: 0.8 },
        drift: none,
      },
    });
    expect(second?.profile).toEqual({ scaleUse: none, agreement: none, selfConsistency: none, drift: none });
    expect(second?.sentence).toContain('The co-owner scores');
    const unseated = { ...reconciliation, evaluators: [evaluatorOf(id('0'))] };
    expect(shown({ reconciliation: unseated }).evaluators[0]?.sentence).toMatch(/^ scores about half a point above/);
  });
});

describe('what the panel may want to ask of how seats scored', () => {
  const questions: Revealed['questions'] = {
    identical: [{ seats: [breeder.id, mentor.id], cells: 96, alike: 80, expected: 0.38, modelled: false, ...quince }],
    reversed: [{ evaluator: coOwner.id, criterion: 'topline-and-loin', correlation: -0.9, puppies: 8, ...quince }],
    scaleUse: [
      { evaluator: mentor.id, slope: 1.62, low: 1.2, high: 2.1, ...quince },
      { evaluator: coOwner.id, slope: 1.2, low: 0.9, high: 1.5 },
      { evaluator: breeder.id, slope: 0.55, low: 0.3, high: 0.8 },
      { evaluator: coOwner.id, slope: 1.5, low: 0.95, high: 2.2 },
    ],
  };

  it('BL2: two who answer alike, a criterion upside down and a use of the scale far from the others are told in sentences', () => {
    expect(shown({ questions }).seatNotes).toEqual([
      'The breeder and the mentor gave the same score in 80 of 96 cells, where about 36 are to be expected in this panel. They may see alike, or have heard each other. The order does not allow for it; what it is without each of them stands under “How far this order holds”.',
      `The co-owner ordered the 8 puppies on ${toplineName} against all the others, who agree among themselves: were the two ends of the scale taken for each other?`,
      'The mentor uses about 1.6 times as much of the scale as the seats of this panel do on average: a way of scoring, not carelessness.',
      'The breeder uses about 0.6 times as much of the scale as the seats of this panel do on average: a way of scoring, not carelessness.',
    ]);
    expect(shown().seatNotes).toEqual([]);
  });

  it('BL9: an anonymous panel is told none, since each names a seat', () => {
    expect(shown({ questions, anonymous: true }).seatNotes).toEqual([]);
  });
});

const toplineName = (() => {
  const name = snapshotOf().sheet.criteria.find(({ key }) => key === 'topline-and-loin')?.name ?? '';
  return name.slice(0, 1).toLowerCase() + name.slice(1);
})();

const open = (snapshot: Snapshot, ...ids: string[]): Snapshot => ({
  ...snapshot,
  seats: snapshot.seats.map((seat) => ({ ...seat, locked: !ids.includes(seat.id) })),
});

describe('locks and a second round', () => {
  const first = open(snapshotOf({ answers }), mentor.id, tableHand.id);
  const cells = [{ puppyId: fern.id, criterion: 'neck' }];
  const later = [
    [mentor.id, 0],
    [coOwner.id, 0],
    [photographer.id, 0],
  ] as const;
  const second = open(
    snapshotOf({
      roundId: id('0'),
      revealedAt: 5000,
      cells,
      answers: later.map(([seat, value]) => said(score('neck', value), id('1a'), seat)),
    }),
    mentor.id,
    coOwner.id,
  );

  it('BL7: seats that had not locked are told once, of either round; who scores nothing is none of them', () => {
    expect(shown({ first }).notLocked).toEqual([mentor.id]);
    expect(shown({ first, second }).notLocked).toEqual([mentor.id, coOwner.id]);
    expect(shown({ second }).notLocked).toEqual([mentor.id, coOwner.id]);
  });

  it('BL2: before a second round the cells on the agenda are those worth asking again, beside it none', () => {
    const split = {
      kind: 'splitOnCriterion',
      puppy: fern.id,
      criterion: 'neck',
      range: 6,
      oppositeDirections: true,
    } as const;
    const agenda = [{ flag: split, slot: keep, now: 0.6, settled: 0.7, gain: 0.1 }, ...reconciliation.agenda];
    expect(shown().secondRoundCells).toEqual([{ puppyId: moss.id, criterion: 'topline-and-loin' }]);
    expect(shown({ reconciliation: { ...reconciliation, agenda } }).secondRoundCells).toEqual([
      { puppyId: fern.id, criterion: 'neck' },
      { puppyId: moss.id, criterion: 'topline-and-loin' },
    ]);
    expect(shown({ first, second }).secondRoundCells).toEqual([]);
    expect(shown({ reconciliation: { ...reconciliation, agenda: [] } }).secondRoundCells).toEqual([]);
  });

  it('BL2: what a second round changed is told cell by cell', () => {
    const told = shown({ first, second }).second;
    expect(told).toMatchObject({
      revealedAt: 5000,
      cells: [{ puppy: fern.id, criterion: 'neck', seats: 2, before: 6, after: 0, kind: 'together', voice: null }],
    });
    expect(told?.pulls.map(({ seat }) => seat)).toEqual([breeder.id, mentor.id, photographer.id, coOwner.id]);
    expect(shown({ first, second }).blindTo[0]).toContain('of that round');
    expect(shown({ first, second: { ...second, cells: null } }).second?.cells).toEqual([]);
  });
});

describe('the board of an anonymous panel', () => {
  it('BL9: it names no seat anywhere but the viewer’s own, and tells neither reasons nor chances nor why a day was not fair', () => {
    const mixed = [
      ...answers,
      said({ kind: 'note', criterion: null, text: 'alert' }, id('1a'), coOwner.id),
      said({ kind: 'choice', puppy: fern.id, reason: 'steady', chance: 70 }, keep, coOwner.id),
    ];
    const view = shown({ snapshot: snapshotOf({ answers: mixed }), anonymous: true });
    const told = JSON.stringify({ ...view, evaluators: [] });
    for (const seat of snapshotOf().seats) {
      expect(told).not.toContain(seat.id);
      expect(told).not.toContain(`the ${seat.label}`);
    }
    expect(view.anonymous).toBe(true);
    expect(view.evaluators.map(({ seat, sentence }) => [seat, sentence.slice(0, 8)])).toEqual([
      [mentor.id, 'One seat'],
    ]);
    expect(view.choices).toEqual(
      [fern, moss].map((puppy) => ({ slotId: keep, seat: null, puppy: puppy.id, reason: '', chance: null })),
    );
    expect(view.unfair).toEqual([{ puppy: sorrel.id, seat: null, why: '' }]);
    expect(view.notes.map(({ text, seat }) => [text, seat])).toEqual([
      ['alert', null],
      ['calm', null],
    ]);
    expect(view.asides).toEqual([
      { puppy: fern.id, seat: null, field: 'overall', value: 5 },
      { puppy: moss.id, seat: null, field: 'free:ears', value: 1 },
    ]);
    expect(view.repeats).toEqual([{ puppy: fern.id, seat: null, cells: 1, alike: 0, shift: null, difference: 2 }]);
    expect(view.checks[0]?.answers).toEqual([{ seat: null, answer: 'level', detail: 'just' }]);
    expect(view.criteria.find(({ criterion }) => criterion === 'neck')?.dots.map(({ seat }) => seat)).toEqual([
      null,
      null,
      null,
    ]);
    expect(view.agenda[3]?.sentence).toMatch(/^One seat scatters/);
    expect(view.blindTo.join(' ')).toContain('can often be guessed');
  });

  it('BL9: its order tells nothing of who answered, and a viewer without a seat gets no profile', () => {
    const inOrder = shown({ anonymous: true, viewerSeatId: null });
    const turned = snapshotOf({ answers: answers.toReversed() });
    expect(inOrder.evaluators).toEqual([]);
    expect(shown({ anonymous: true, viewerSeatId: null, snapshot: turned })).toEqual(inOrder);
  });

  it('BL9: of a second round it tells no voice and no pull', () => {
    const scored = (values: readonly (readonly [string, number])[]) =>
      values.map(([seat, value]) => said(score('neck', value), id('1a'), seat));
    const first = snapshotOf({
      answers: scored([
        [mentor.id, 3],
        [coOwner.id, -3],
        [photographer.id, -3],
      ]),
    });
    const second = snapshotOf({
      roundId: id('0'),
      revealedAt: 5000,
      cells: [{ puppyId: fern.id, criterion: 'neck' }],
      answers: scored([
        [mentor.id, 3],
        [coOwner.id, 3],
        [photographer.id, 3],
      ]),
    });
    const named = shown({ first, second }).second;
    expect(named?.cells[0]).toMatchObject({ kind: 'oneVoice', voice: mentor.id });
    expect(named?.pulls.map(({ seat }) => seat)).toContain(mentor.id);
    expect(named?.sentence).toContain('the mentor');
    const nameless = shown({ first, second, anonymous: true }).second;
    expect(nameless).toMatchObject({ cells: [{ kind: 'oneVoice', voice: null }], pulls: [] });
    expect(nameless?.sentence).not.toContain('mentor');
    expect(nameless?.sentence).toContain('one seat');
  });
});
