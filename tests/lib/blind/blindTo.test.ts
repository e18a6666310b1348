import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blindTo } from '#lib/blind/blindTo';
import type { Snapshot } from '#lib/contract/snapshot';
import { coOwner, fern, id, mentor, photographer, snapshotOf, tableHand } from '#tests/support/evaluationFacts';

type Seats = Readonly<Record<string, Partial<Snapshot['seats'][number]>>>;
const withSeats = (changes: Seats, change: Partial<Snapshot> = {}): Snapshot => {
  const plain = snapshotOf(change);
  return { ...plain, seats: plain.seats.map((seat) => ({ ...seat, ...changes[seat.id] })) };
};
const second = (changes: Seats = {}): Snapshot =>
  withSeats(changes, {
    roundId: id('0'),
    revealedAt: 5000,
    cells: [
      { puppyId: fern.id, criterion: 'neck' },
      { puppyId: fern.id, criterion: 'ears' },
    ],
  });
const plain = { anonymous: false, second: null, restores: [] };

it('BL5: a result of one round says what seats were not shown and what they were, and who can read the files', () => {
  expect(blindTo(snapshotOf(), plain)).toEqual([
    'Until the reveal no seat, the owner’s included, was shown another seat’s scores, checks, notes or choices, nor anything worked out from them.',
    'Scoring seats other than the owner’s were not shown parents, weights of the puppies, or how criteria weigh.',
    'Seats did see names, sex, collars and marks, and could hear what was said at the table.',
    'Scores are not hidden from whoever can read the server’s files.',
  ]);
});

it('BL5: a result of two rounds says it round by round', () => {
  expect(blindTo(snapshotOf(), { ...plain, second: second() })).toEqual([
    'Until a round’s own reveal no seat, the owner’s included, was shown another seat’s scores, checks, notes or choices of that round, nor anything worked out from them.',
    'In the first round scoring seats other than the owner’s were not shown parents, weights of the puppies, or how criteria weigh. In the second they were not shown parents or weights of the puppies; how criteria weigh, and the scores and the result of the first round, they had been shown by then.',
    'Seats did see names, sex, collars and marks, and could hear what was said at the table.',
    'In 2 cells the scores of a second round stand where they were given: blind again, but after the talk. Agreement there is agreement after discussion.',
    'Scores are not hidden from whoever can read the server’s files.',
  ]);
  expect(blindTo(snapshotOf(), { ...plain, second: { ...second(), cells: null } })).toContain(
    'In 0 cells the scores of a second round stand where they were given: blind again, but after the talk. Agreement there is agreement after discussion.',
  );
});

/** What a result says beside what the plainest one says. */
const added = (first: Snapshot, circumstances: Partial<Parameters<typeof blindTo>[1]> = {}) => {
  const usual = blindTo(snapshotOf(), { ...plain, second: circumstances.second ? second() : null });
  return blindTo(first, { ...plain, ...circumstances }).filter((sentence) => !usual.includes(sentence));
};

describe('what it adds', () => {
  it('BL5: nothing of a seat that scores nothing and has not locked', () => {
    expect(added(withSeats({ [tableHand.id]: { locked: false } }))).toEqual([]);
  });

  it.each([
    [
      false,
      [
        'Seats that neither lead nor organise saw puppies by a code of their own: no name, collar or mark of the set-up. What a picture itself shows was not hidden.',
      ],
    ],
    [
      true,
      [
        'In the first round seats that neither lead nor organise saw puppies by a code of their own: no name, collar or mark of the set-up. What a picture itself shows was not hidden.',
        'In the second round every seat saw which puppy was which.',
      ],
    ],
  ])('BL5: codes for names, with a second round: %s', (twice, sentences) => {
    const circumstances = { ...plain, second: twice ? second() : null };
    expect(added(snapshotOf({ coded: true }), circumstances)).toEqual(sentences);
    expect(blindTo(snapshotOf({ coded: true }), circumstances).join()).not.toContain('Seats did see names');
  });

  it('BL9: that a panel is anonymous, and how little that hides', () => {
    expect(added(snapshotOf(), { anonymous: true })).toEqual([
      'The panel is anonymous: this board counts answers and names no seat. With few seats, who said what can often be guessed.',
    ]);
  });

  it('BL9: which seats were issued again, and when', () => {
    const again = { reissued: true };
    const unknown = 'Who held the first device is not known to the server.';
    expect(added(withSeats({ [mentor.id]: again, [coOwner.id]: again }))).toEqual([
      `Reissued to another device: mentor, co-owner. ${unknown}`,
    ]);
    expect(
      added(withSeats({ [mentor.id]: again }), { second: second({ [mentor.id]: again, [coOwner.id]: again }) }),
    ).toEqual([
      `Reissued to another device: mentor. ${unknown}`,
      `Reissued to another device after the first reveal: co-owner. ${unknown}`,
    ]);
    expect(added(snapshotOf(), { second: second({ [photographer.id]: again }) })).toEqual([
      `Reissued to another device after the first reveal: photographer. ${unknown}`,
    ]);
    expect(added(withSeats({ [mentor.id]: again }), { second: second({ [mentor.id]: again }) })).toHaveLength(1);
  });

  it('BL7: which seats had not locked, round by round', () => {
    const open = { locked: false };
    expect(added(withSeats({ [mentor.id]: open, [coOwner.id]: open }))).toEqual([
      'Not locked when the round closed: mentor, co-owner. Their scores stand as they were.',
    ]);
    expect(added(withSeats({ [mentor.id]: open }), { second: second({ [coOwner.id]: open }) })).toEqual([
      'Not locked when the first round closed: mentor. Their scores stand as they were.',
      'Not locked when the second round closed: co-owner. Their scores stand as they were.',
    ]);
  });

  it.each([
    [false, 999, 'before the reveal'],
    [false, 1000, 'after the reveal'],
    [true, 999, 'before the first reveal'],
    [true, 1000, 'between the two reveals'],
    [true, 4999, 'between the two reveals'],
    [true, 5000, 'after the second reveal'],
  ] as const)('BL7: a restore, with a second round %s, at %i: %s', (twice, at, side) => {
    expect(added(snapshotOf(), { restores: [at], second: twice ? second() : null })).toEqual([
      `Restored from a backup on 1970-01-01 00:00 UTC, ${side}: what was entered between that backup and then is missing here.`,
    ]);
  });

  it('BL7: each restore by its minute', () => {
    const times = [Date.UTC(2026, 8, 12, 9, 5, 59), Date.UTC(2026, 8, 12, 23, 59)];
    expect(added(snapshotOf(), { restores: times }).map((sentence) => sentence.slice(26, 46))).toEqual([
      '2026-09-12 09:05 UTC',
      '2026-09-12 23:59 UTC',
    ]);
  });
});

it('BL5: whose card was typed from paper is said exactly where it was, round by round, and to an anonymous panel how many', () => {
  const typedOf = (ids: readonly string[], base: Snapshot): Snapshot => ({
    ...base,
    seats: base.seats.map((seat) => ({ ...seat, typed: ids.includes(seat.id) })),
  });
  const some = fc.subarray([mentor.id, photographer.id, coOwner.id]);
  fc.assert(
    fc.property(some, fc.option(some), fc.boolean(), (inFirst, inSecond, anonymous) => {
      const circumstances = { anonymous, restores: [], second: inSecond && typedOf(inSecond, second()) };
      const sentences = blindTo(typedOf(inFirst, snapshotOf()), circumstances);
      const said = sentences.filter((sentence) => sentence.includes('typed from paper by the owner'));
      const rounds = [inFirst, ...(inSecond ? [inSecond] : [])];
      expect(said).toHaveLength(rounds.filter((ids) => ids.length > 0).length);
      expect(sentences[0]?.includes(', but for what the owner typed from paper.')).toBe(said.length > 0);
      for (const [at, ids] of rounds.entries()) {
        if (ids.length === 0) continue;
        const sentence =
          said.find(
            (one) => inSecond === null || one.startsWith(at === 0 ? 'In the first round' : 'In the second round'),
          ) ?? '';
        for (const seat of [mentor, photographer, coOwner])
          expect(sentence.includes(seat.label)).toBe(!anonymous && ids.includes(seat.id));
        if (anonymous)
          expect(sentence).toMatch(ids.length === 1 ? /one card was/i : new RegExp(`${ids.length} cards were`));
      }
    }),
  );
  expect(blindTo(typedOf([mentor.id, coOwner.id], snapshotOf()), plain)).toContain(
    'The cards of mentor, co-owner were typed from paper by the owner, who saw them then and could no longer score.',
  );
});
