import { expect, it } from 'vitest';
import { checkCards, inForce, promiseWords, strayScores, undoneCommitments } from '../../../app/board/PromisedPart';
import type { OpenedCommitment } from '#lib/contract/commitment';
import { cardsHash } from '#server/write/commitCards';

const id = (digit: string) => digit.repeat(32);
const roundId = id('e');

function opened(seat: string, value: number): OpenedCommitment {
  const cards = [{ subject: id('f'), body: { kind: 'score', criterion: 'neck', value, cannotJudge: false } } as const];
  const nonce = id(seat);
  return {
    roundId,
    seat: id(seat),
    by: 'device',
    locked: true,
    reissued: false,
    wordsRemoved: false,
    nonce,
    cards,
    hash: cardsHash(nonce, { roundId, seatId: id(seat), answers: cards }),
  };
}

const both = [opened('1', 5), opened('2', 3)];
const published = both.map(({ seat, hash, by, locked }) => ({ seat, hash, by, locked }));
const promises = [{ nonce: id('1'), commitment: both[0]?.hash ?? '' }];
const held = { published, promises, ownSeatId: id('1'), roundId, anonymous: false };
const labelOf = (seat: string) => `seat ${seat.slice(0, 1)}`;
const faultsOf = (...args: Parameters<typeof checkCards>) => checkCards(...args).map((one) => one.fault);

it('BL7: cards that are what was committed are called so, all of them', () => {
  const checked = checkCards(both, held);
  expect(checked.map((one) => one.fault)).toEqual([null, null]);
  expect(promiseWords(checked, labelOf)).toEqual(['All 2 cards are what was committed before the reveal.']);
});

it('BL7: one score changed after the commitment is found and named by its seat', () => {
  const [first, second] = both;
  if (!first || !second) throw new Error('no cards');
  const changed = { ...second, cards: opened('2', 4).cards };
  expect(faultsOf([first, changed], held)).toEqual([null, 'cards']);
  expect(promiseWords(checkCards([first, changed], held), labelOf)).toEqual([
    'The card of seat 2 is not what was committed before the reveal.',
    'The other 1 card is what was committed before the reveal.',
  ]);
});

it('BL7: cards and commitment changed together are found by a device that saw what was published', () => {
  const swapped = [both[0], opened('2', 4)].flatMap((one) => one ?? []);
  expect(faultsOf(swapped, held)).toEqual([null, 'published']);
  expect(faultsOf(swapped, { ...held, published: null })).toEqual([null, null]);
});

it('BL7: a seat’s own card is held to the nonce that its device kept', () => {
  const forged = [{ ...opened('1', 6) }, both[1]].flatMap((one) => one ?? []);
  expect(faultsOf(forged, { ...held, published: null })).toEqual(['promise', null]);
  expect(faultsOf(forged, { ...held, published: null, promises: [] })).toEqual([null, null]);
});

it('BL7: a score on the board that no opened card holds is found', () => {
  const showings = [{ id: id('f'), puppyId: id('9'), place: 0, repeat: false }];
  const board = (value: number) => ({
    criteria: [
      {
        criterion: 'neck',
        spread: null,
        withinOne: null,
        seats: 2,
        band: 'low' as const,
        dots: [{ puppy: id('9'), seat: id('2'), value, cannotJudge: false }],
      },
    ],
  });
  expect(strayScores(board(3), both, showings)).toEqual([]);
  expect(strayScores(board(4), both, showings)).toEqual([id('2')]);
  expect(strayScores(board(3), both.slice(0, 1), showings)).toEqual([id('2')]);
});

it('BL5: what could not be bound by its own seat, or checked any more, is said', () => {
  const unlocked = { ...opened('3', 2), by: 'server' as const, locked: false };
  const removed = { ...opened('4', 2), wordsRemoved: true, cards: [] };
  expect(promiseWords(checkCards([unlocked, removed], { ...held, published: null, promises: [] }), labelOf)).toEqual([
    'The other 1 card is what was committed before the reveal.',
    'Bound by the server when the round closed, because not locked: seat 3.',
    '1 card can no longer be checked: the person’s words were removed.',
  ]);
  expect(promiseWords([], labelOf)[0]).toContain('Nothing was committed');
});

it('BL7: a card that was published, or locked by this device, and is not opened is told', () => {
  const [first, second] = both;
  if (!first || !second) throw new Error('no cards');
  expect(checkCards([first], held)).toContainEqual({
    seat: id('2'),
    roundId,
    locked: true,
    wordsRemoved: false,
    fault: 'missing',
  });
  expect(faultsOf([], held)).toEqual(['missing', 'missing']);
  expect(faultsOf([second], { ...held, published: null })).toEqual([null, 'missing']);
  // In an anonymous panel other seats' cards are not opened to this one.
  expect(faultsOf([first], { ...held, anonymous: true })).toEqual([null]);
  expect(promiseWords(checkCards([first], held), labelOf)[0]).toBe(
    'The card of seat 2 was committed before the reveal and has not been opened.',
  );
});

it('BL7: a commitment said to be the server’s, of a seat that locked and was not issued again, is told', () => {
  const forged = { ...opened('2', 3), by: 'server' as const };
  const unseen = { ...held, published: null, promises: [] };
  expect(faultsOf([forged], unseen)).toEqual(['server']);
  expect(faultsOf([{ ...forged, reissued: true }], unseen)).toEqual([null]);
  expect(faultsOf([{ ...forged, locked: false }], unseen)).toEqual([null]);
  // Whoever saw what was published is not told anything else, and nothing that was not published is taken for it.
  expect(
    faultsOf(
      [both[0], { ...forged, locked: false }].flatMap((one) => one ?? []),
      held,
    ),
  ).toEqual([null, 'published']);
  expect(faultsOf([...both, opened('3', 4)], held)).toEqual([null, null, 'published']);
});

const line = (kind: string, detail = '') => ({ kind, detail });
const committed = (cards: readonly OpenedCommitment[]) => cards.map(({ hash }) => line('committed', hash));

it('BL7: a device that missed a reopening and the second close raises no alarm: the record says what of its own was undone', () => {
  const again = [opened('1', 6), opened('2', 4)];
  const record = [
    line('round-opened'),
    line('round-closed'),
    ...committed(both),
    line('round-reopened'),
    line('round-closed'),
    ...committed(again),
    line('round-revealed'),
  ];
  const now = inForce({ published, promises }, undoneCommitments(record));
  expect(faultsOf(again, { ...held, ...now })).toEqual([null, null]);
  // What stands is held to as before, a second round's reopening included.
  const later = [
    ...record,
    line('second-round-opened'),
    line('round-closed'),
    line('committed', '9'.repeat(64)),
    line('round-reopened'),
  ];
  const seen = again.map(({ seat, hash, by, locked }) => ({ seat, hash, by, locked }));
  expect(inForce({ published: seen, promises: [] }, undoneCommitments(later)).published).toEqual(seen);
});

it('BL7: another commitment without a reopening on the record, and a card of the undone close that was not published as one, are found as before', () => {
  const [first] = both;
  if (!first) throw new Error('no card');
  const record = [line('round-closed'), ...committed(both), line('round-revealed')];
  const swapped = [first, opened('2', 4)];
  expect(faultsOf(swapped, { ...held, ...inForce({ published, promises }, undoneCommitments(record)) })).toEqual([
    null,
    'published',
  ]);
  // The record names one of the two this device saw: what it saw was never published so.
  const partly = [
    line('round-closed'),
    ...committed([first]),
    line('round-reopened'),
    line('round-closed'),
    ...committed(swapped),
    line('round-revealed'),
  ];
  expect(faultsOf(swapped, { ...held, ...inForce({ published, promises }, undoneCommitments(partly)) })).toEqual([
    null,
    'published',
  ]);
});
