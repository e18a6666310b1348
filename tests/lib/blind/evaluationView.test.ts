import { describe, expect, it } from 'vitest';
import { evaluationView, partiesView, seatFace, withoutNames } from '#lib/blind/evaluationView';
import { evaluationViewSchema } from '#lib/contract/evaluationView';
import { usualPlan } from '#lib/contract/plan';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import {
  breeder,
  coOwner,
  factsAt,
  factsStages,
  fern,
  id,
  locked,
  mentor,
  moss,
  photographer,
  roundFacts,
  seatFacts,
  sorrel,
  tableHand,
} from '#tests/support/evaluationFacts';

const commitment = { seat: mentor.id, hash: 'c'.repeat(64), by: 'device' } as const;
const beside = { versions: { all: 1, own: 2 }, head: { seq: 3, hash: 'd'.repeat(64) }, commitments: [commitment] };
const owner: Viewer = { owner: true, seatId: breeder.id, leads: true };
const of = (seat: { readonly id: string }): Viewer => ({ owner: false, seatId: seat.id, leads: false });

function seen(facts: EvaluationFacts, viewer: Viewer) {
  const view = evaluationView(facts, viewer, beside);
  if (!view) throw new Error('no view');
  expect(evaluationViewSchema.safeParse(view).error).toBeUndefined();
  return view;
}

describe('who is shown an evaluation', () => {
  it.each(factsStages)('BL2: a viewer who is neither the owner nor a seat here gets nothing: %s', (stage) => {
    expect(evaluationView(factsAt(stage), { owner: false, seatId: id('0'), leads: true }, beside)).toBeNull();
    expect(evaluationView(factsAt(stage), { owner: false, seatId: null, leads: false }, beside)).toBeNull();
  });

  it.each(factsStages)(
    'BL2: the owner, also without a seat, and every seat, also one without a right, are shown it: %s',
    (stage) => {
      expect(seen(factsAt(stage), { owner: true, seatId: null, leads: false }).viewer).toEqual({
        owner: true,
        seatId: null,
        leads: true,
        organises: false,
        reads: true,
      });
      expect(seen(factsAt(stage), of(tableHand)).viewer).toEqual({
        owner: false,
        seatId: tableHand.id,
        leads: false,
        organises: false,
        reads: false,
      });
    },
  );

  it('BL2: a right that a request claims and its seat does not have is not believed', () => {
    expect(seen(factsAt('open'), { ...of(mentor), leads: true }).viewer.leads).toBe(false);
  });
});

describe('field by field', () => {
  it.each([owner, of(mentor), of(tableHand)])('BL2: what facts carry besides does not get out: %j', (viewer) => {
    const quince = { quince: 'quince' };
    const facts = factsAt('revealed', { plan: { ...usualPlan, ...quince }, confirmedSeatIds: [coOwner.id], ...quince });
    const round = roundFacts({
      state: 'revealed',
      cells: [{ puppyId: fern.id, criterion: 'neck', ...quince }],
      showings: roundFacts({}).showings.map((one) => ({ ...one, ...quince })),
    });
    const all = <T>(list: readonly T[]) => list.map((one) => ({ ...one, ...quince }));
    const laden = {
      ...facts,
      round: { ...round, ...quince },
      puppies: all(facts.puppies),
      seats: all(facts.seats),
      slots: all(facts.slots),
      purposes: all(facts.purposes),
    };
    const view = evaluationView(
      laden,
      { ...viewer, ...quince },
      {
        ...beside,
        head: { ...beside.head, ...quince },
        versions: { ...beside.versions, ...quince },
        commitments: [{ ...commitment, ...quince }],
      },
    );
    expect(JSON.stringify(view)).not.toContain('quince');
    expect(evaluationViewSchema.safeParse(view).error).toBeUndefined();
  });

  const noRights = { leads: false, organises: false, reads: false };
  const viewers = [
    ['the owner', owner, { owner: true, seatId: breeder.id, leads: true, organises: false, reads: true }],
    [
      'the owner without a seat',
      { owner: true, seatId: null, leads: false },
      { owner: true, seatId: null, leads: true, organises: false, reads: true },
    ],
    ['who scores', of(mentor), { owner: false, seatId: mentor.id, ...noRights, reads: true }],
    ['who has no right', of(tableHand), { owner: false, seatId: tableHand.id, ...noRights }],
    [
      'who organises',
      of({ id: id('9') }),
      { owner: false, seatId: id('9'), leads: true, organises: true, reads: true },
    ],
  ] as const;
  const everyViewerInEveryPhase = factsStages.flatMap((stage) =>
    viewers.map(([who, viewer, face]) => [stage, who, viewer, face] as const),
  );

  it.each(everyViewerInEveryPhase)('BL1, BL2: %s, %s: exactly this and nothing else', (stage, _who, viewer, face) => {
    const seats = [
      locked(breeder),
      mentor,
      photographer,
      coOwner,
      tableHand,
      seatFacts({ id: id('9'), kind: 'none', organises: true, position: 5 }),
    ];
    const facts = factsAt(stage, {
      seats,
      plan: { ...usualPlan, silentRepeat: true, lookBatches: 5, hoursSinceMeal: 2 },
      confirmedSeatIds: [coOwner.id],
    });
    const revealed = stage === 'revealed' || stage === 'sealed';
    const shown = [
      [id('1a'), fern.id],
      [id('1b'), moss.id],
      [id('1c'), sorrel.id],
      [id('2a'), fern.id],
    ] as const;
    expect(seen({ ...facts, round: facts.round && { ...facts.round, tableShowingId: id('1b') } }, viewer)).toEqual({
      id: id('e'),
      name: 'Eight weeks',
      litterName: 'Autumn',
      breed: 'Leonberger',
      ageDays: 56,
      heldOn: '2026-09-12',
      phase: facts.phase,
      callLink: 'https://call.example/autumn',
      callNumber: '01 23',
      tableNote: 'back door',
      viewer: face,
      sheet: facts.sheet,
      puppies: [fern, moss, sorrel],
      slots: facts.slots,
      purposes: revealed || face.owner ? facts.purposes : null,
      seats: seats.map(seatFace),
      parties: [{ seat: coOwner.id, confirmed: true }],
      plan: { kind: 'panel', learnerSeatId: null, discussion: 'roles', identity: 'shown', hoursSinceMeal: 2 },
      round:
        stage === 'preparing'
          ? null
          : {
              id: id('f'),
              occasion: 'first',
              medium: 'table',
              state: revealed ? 'revealed' : stage,
              tableShowingId: id('1b'),
              cells: null,
              showings: shown.map(([showing, puppyId], place) => ({
                id: showing,
                puppyId,
                place,
                repeat: revealed && place === 3,
              })),
            },
      revealed,
      lookOpen: false,
      commitments: stage === 'preparing' || stage === 'open' ? null : [{ ...commitment, locked: false }],
      head: beside.head,
      versions: beside.versions,
      imported: null,
    });
  });

  it('BL2: a seat is told by place, rights and state, never by its links or its issues', () => {
    expect(seatFace({ ...locked(coOwner), issued: 3, linkWaiting: true, interest: 'a dog' })).toEqual({
      id: coOwner.id,
      position: 3,
      label: 'co-owner',
      kind: 'live',
      leads: false,
      picks: true,
      organises: false,
      reads: false,
      interest: 'a dog',
      owner: false,
      state: 'locked',
    });
    expect(
      seatFace(seatFacts({ leads: true, organises: true, reads: true, owner: true, joined: false })),
    ).toMatchObject({ leads: true, organises: true, reads: true, owner: true, state: 'invited' });
  });

  it('BL2: who has to agree is told with whether it has', () => {
    expect(
      partiesView(
        factsAt('open', { seats: [coOwner, { ...mentor, picks: true }, breeder], confirmedSeatIds: [mentor.id] }),
      ),
    ).toEqual([
      { seat: coOwner.id, confirmed: false },
      { seat: mentor.id, confirmed: true },
    ]);
  });
});

describe('beside the first round', () => {
  it('BL2: beside an open second round the first result stands, and what is asked again is told', () => {
    const round = roundFacts({ id: id('0'), occasion: 'second', cells: [{ puppyId: fern.id, criterion: 'neck' }] });
    const view = seen(factsAt('revealed', { round, earlierRounds: [roundFacts({ state: 'revealed' })] }), of(mentor));
    expect([view.revealed, view.purposes?.length, view.round?.occasion, view.round?.cells]).toEqual([
      true,
      2,
      'second',
      [{ puppyId: fern.id, criterion: 'neck' }],
    ]);
    expect(view.round?.showings.at(-1)?.repeat).toBe(false);
    expect(view.commitments).toBeNull();
  });

  it('BL8: that a batch of looks is open is told', () => {
    expect(seen(factsAt('revealed', { openBatchId: id('0') }), of(mentor)).lookOpen).toBe(true);
  });
});

describe('from photographs', () => {
  const round = roundFacts({ medium: 'photographs', tableShowingId: id('1b') });
  const order = (viewer: Viewer, change: Partial<EvaluationFacts> = {}) =>
    seen(factsAt('open', { medium: 'photographs', round, ...change }), viewer).round?.showings.map(
      ({ id: showing, place }) => [showing, place],
    );

  it('BL4: each seat works in an order of its own, by places of its own until the reveal; nobody is told of a table', () => {
    expect(order(of(breeder))).toEqual([
      [id('1a'), 0],
      [id('1b'), 1],
      [id('2a'), 2],
      [id('1c'), 3],
    ]);
    expect(order(of(mentor))).toEqual([
      [id('1b'), 0],
      [id('1c'), 1],
      [id('1a'), 2],
      [id('2a'), 3],
    ]);
    expect(order({ owner: true, seatId: null, leads: true })).toEqual([
      [id('1a'), 0],
      [id('1b'), 1],
      [id('1c'), 2],
      [id('2a'), 3],
    ]);
    expect(order(of(mentor), { round: { ...round, state: 'closed' } })).toEqual(order(of(mentor)));
    expect(order(of(mentor), { round: { ...round, state: 'revealed' } })).toEqual([
      [id('1b'), 1],
      [id('1c'), 2],
      [id('1a'), 0],
      [id('2a'), 3],
    ]);
    expect(seen(factsAt('open', { round }), of(mentor)).round?.tableShowingId).toBeNull();
    expect(
      seen(factsAt('open', { round: { ...round, medium: 'table' } }), of(mentor)).round?.showings.map(
        ({ place }) => place,
      ),
    ).toEqual([0, 1, 2, 3]);
  });

  const coded = { medium: 'photographs', round, plan: { ...usualPlan, identity: 'coded' } } as const;
  const named = (viewer: Viewer, change: Partial<EvaluationFacts> = {}) =>
    seen(factsAt('open', { ...coded, ...change }), viewer).puppies;

  it('BL2: by code a seat sees letters of its own drawing, sex and who left; no name, collar or mark', () => {
    const puppies = named(of(mentor), { puppies: [fern, { ...moss, withdrawn: true }, sorrel] });
    expect(puppies.map(({ name }) => name)).toEqual(['Puppy A', 'Puppy B', 'Puppy C']);
    expect(puppies.every(({ collar, secondMark }) => collar === 'none' && secondMark === '')).toBe(true);
    expect(
      puppies
        .toSorted((one, other) => one.id.localeCompare(other.id))
        .map(({ id: puppy, sex, withdrawn }) => [puppy, sex, withdrawn]),
    ).toEqual([
      [fern.id, 'bitch', false],
      [moss.id, 'dog', true],
      [sorrel.id, 'bitch', false],
    ]);
    expect(named(of(mentor))).toEqual(named(of(mentor)));
  });

  it('BL2: two seats’ letters do not go together, and none tells of the order in which puppies were entered', () => {
    const orders = Array.from('0123456789abcdef', (sign) =>
      named(of({ id: id(sign) }), { seats: [seatFacts({ id: id(sign) })] })
        .map(({ id: puppy }) => puppy)
        .join(),
    );
    expect(new Set(orders).size).toBeGreaterThan(3);
    const turned = named(of(mentor), { puppies: [sorrel, moss, fern] }).map(({ id: puppy }) => puppy);
    expect(turned).not.toEqual(named(of(mentor)).map(({ id: puppy }) => puppy));
  });

  it('BL2: after the letters come letters with a number', () => {
    const many = Array.from({ length: 50 }, (_, at) => ({ ...fern, id: `${at}` }));
    const facts = factsAt('open', { ...coded, puppies: many });
    const names = evaluationView(facts, of(mentor), beside)?.puppies.map(({ name }) => name) ?? [];
    expect([names[0], names[8], names[23], names[24], names[47], names[48]]).toEqual([
      'Puppy A',
      'Puppy J',
      'Puppy Z',
      'Puppy A2',
      'Puppy Z2',
      'Puppy A3',
    ]);
    expect(new Set(names).size).toBe(50);
  });

  it.each([
    ['the owner', owner, {}],
    ['the owner without a seat', { owner: true, seatId: null, leads: false }, {}],
    ['who leads', of(mentor), { seats: [{ ...mentor, leads: true }] }],
    ['who organises', of(tableHand), { seats: [{ ...tableHand, organises: true }] }],
    ['everybody after the reveal', of(mentor), { round: { ...round, state: 'revealed' as const } }],
    ['everybody at the table', of(mentor), { medium: 'table' as const }],
  ])('BL2: %s sees which puppy is which', (_case, viewer, change) => {
    expect(named(viewer, change)).toEqual([fern, moss, sorrel]);
  });

  it('BL2: by code a showing’s place is that in the seat’s own order, also in a round at the table', () => {
    expect(order(of(mentor), coded)).toEqual([
      [id('1b'), 0],
      [id('1c'), 1],
      [id('1a'), 2],
      [id('2a'), 3],
    ]);
    const table = roundFacts({ showings: roundFacts({}).showings.toReversed() });
    expect(order(of(mentor), { ...coded, round: table })).toEqual([
      [id('2a'), 0],
      [id('1c'), 1],
      [id('1b'), 2],
      [id('1a'), 3],
    ]);
    expect(order(owner, { ...coded, round: table })).toEqual([
      [id('2a'), 3],
      [id('1c'), 2],
      [id('1b'), 1],
      [id('1a'), 0],
    ]);
  });
});

it.each([
  ['Fern left', ''],
  ['a picture of Moss', ''],
  ['Fern', ''],
  ['fern left', 'fern left'],
  ['closed', 'closed'],
  ['', ''],
])('BL2: of the record’s words %j a viewer who sees codes is told %j', (words, told) => {
  expect(withoutNames(words, [fern, moss])).toBe(told);
});

it('BL2: where an evaluation came in a file, every viewer is told when, and by which head, and nothing else of it', () => {
  const imported = { at: 9, writtenAt: 5, head: { seq: 3, hash: 'd'.repeat(64) } };
  const laden = { ...imported, quince: 'quince', head: { ...imported.head, quince: 'quince' } };
  expect(seen(factsAt('sealed', { imported: laden }), owner).imported).toEqual(imported);
  expect(seen(factsAt('sealed'), owner).imported).toBeNull();
});
