import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  forgetLeft,
  goTo,
  hearTable,
  isInMidst,
  isSamePlace,
  isSecondTap,
  isUnsure,
  settleMs,
  startFollowing,
  type Following,
  type Hands,
} from '#lib/evaluation/followTable';

const free: Hands = { held: false, midst: false };
const at = (changes: Partial<Following> = {}): Following => ({
  shown: 'fern',
  table: 'fern',
  left: null,
  broughtFrom: null,
  ...changes,
});

describe('following the table', () => {
  it.each([
    [
      'one who has not begun, or is done, follows',
      at(),
      'moss',
      free,
      at({ shown: 'moss', table: 'moss', left: 'fern', broughtFrom: 'fern' }),
    ],
    ['one in the midst of a puppy stays', at(), 'moss', { held: false, midst: true }, at({ table: 'moss' })],
    ['nothing moves under a finger', at(), 'moss', { held: true, midst: false }, at()],
    [
      'one elsewhere of its own accord stays',
      at({ shown: 'sorrel' }),
      'moss',
      free,
      at({ shown: 'sorrel', table: 'moss' }),
    ],
    [
      'where the table comes to what is shown, the device follows from then on',
      at({ shown: 'moss' }),
      'moss',
      free,
      at({ shown: 'moss', table: 'moss' }),
    ],
    ['the same table again is no move', at(), 'fern', { held: false, midst: true }, at()],
    ['a table that is cleared takes nothing away', at(), null, free, at({ table: null })],
    [
      'the table that one without a puppy knows already is no move',
      at({ shown: null }),
      'fern',
      free,
      at({ shown: null }),
    ],
    ['one without a puppy follows', at({ shown: null }), 'moss', free, at({ shown: 'moss', table: 'moss' })],
    ['the first table there is', at({ shown: null, table: null }), 'fern', free, at({ left: null, broughtFrom: null })],
  ] as const)('LV3: %s', (_case, state, table, hands, after) => {
    expect(hearTable(state, table, hands)).toEqual(after);
  });

  it('LV3: her own move needs no settling, and what she leaves for the table is offered again', () => {
    const stayed = hearTable(at(), 'moss', { held: false, midst: true });
    const gone = goTo(stayed, 'moss');
    expect(gone).toEqual(at({ shown: 'moss', table: 'moss', left: 'fern' }));
    expect(goTo(gone, 'fern')).toEqual(at({ table: 'moss', left: 'moss' }));
    // Who leads goes ahead of the doorbell of her own move.
    expect(hearTable(goTo(at(), 'moss'), 'moss', free)).toEqual(gone);
    expect(forgetLeft(gone).left).toBeNull();
    expect(isUnsure(gone, null, 0)).toBe(false);
    expect(startFollowing(null, 'fern')).toEqual(at({ table: null }));
  });

  it.each([
    ['one goes where it is already', at({ left: 'moss' }), 'fern', at({ left: 'moss' })],
    ['one elsewhere goes elsewhere', at({ shown: 'sorrel' }), 'moss', at({ shown: 'moss' })],
    ['one elsewhere goes to what it had left', at({ shown: 'sorrel', left: 'moss' }), 'moss', at({ shown: 'moss' })],
    [
      'one elsewhere goes to neither the table nor what it had left',
      at({ shown: 'sorrel', left: 'moss' }),
      'rue',
      at({ shown: 'rue', left: 'moss' }),
    ],
    ['one elsewhere goes to the table', at({ shown: 'sorrel', left: 'moss' }), 'fern', at({ left: 'sorrel' })],
  ] as const)('LV3: what is offered again when %s', (_case, state, goes, after) => {
    expect(goTo(state, goes)).toEqual(after);
  });

  it('LV3: whatever happens, a device shows another puppy only by its own press or as a free follower', () => {
    const puppy = fc.constantFrom('fern', 'moss', 'sorrel');
    const event = fc.oneof(
      fc.record({ go: puppy }),
      fc.record({ table: puppy, held: fc.boolean(), midst: fc.boolean() }),
    );
    fc.assert(
      fc.property(fc.array(event, { maxLength: 30 }), (events) => {
        let state = startFollowing('fern', 'fern');
        for (const one of events) {
          const before = state;
          state = 'go' in one ? goTo(state, one.go) : hearTable(state, one.table, one);
          if ('go' in one) expect(state).toMatchObject({ shown: one.go, broughtFrom: null });
          else if (state.shown !== before.shown) {
            expect([one.held, one.midst, before.shown === before.table]).toEqual([false, false, true]);
            expect(state).toMatchObject({ shown: one.table, broughtFrom: before.shown, left: before.shown });
          }
        }
      }),
    );
  });
});

it.each([
  ['not begun', { said: false, missing: 5, place: 0, steps: 6 }, false],
  ['an answer given', { said: true, missing: 4, place: 0, steps: 6 }, true],
  ['moved on without an answer', { said: false, missing: 5, place: 1, steps: 6 }, true],
  ['everything answered', { said: true, missing: 0, place: 3, steps: 6 }, false],
  ['left at its end with questions open', { said: true, missing: 2, place: 6, steps: 6 }, false],
  ['nothing asked of this seat', { said: false, missing: 0, place: 0, steps: 0 }, false],
])('LV3: in the midst of a puppy: %s', (_case, progress, midst) => {
  expect(isInMidst(progress)).toBe(midst);
});

it.each([
  ['brought and not yet on the screen', 'fern', null, 50, true],
  ['brought long ago by its clock and not yet on the screen', 'fern', null, 5000, true],
  ['brought 300 ms ago', 'fern', 1000, 1300, true],
  ['the finger on its way down before', 'fern', 1000, 990, true],
  ['just short of settled', 'fern', 1000, 1000 + settleMs - 1, true],
  ['settled', 'fern', 1000, 1000 + settleMs, false],
  ['of her own choosing', null, 1000, 1001, false],
] as const)('LV3: a press is asked about: %s', (_case, broughtFrom, seenAt, downAt, unsure) => {
  expect(isUnsure(at({ broughtFrom }), seenAt, downAt)).toBe(unsure);
});

describe('a double tap', () => {
  it.each([
    ['nothing before', null, { key: '5', at: 0 }, false],
    ['the same key at once', { key: '5', at: 0 }, { key: '5', at: 120 }, true],
    ['the same key after a while', { key: '5', at: 0 }, { key: '5', at: 600 }, false],
    ['another key', { key: '5', at: 0 }, { key: '6', at: 120 }, false],
    ['the same key at once, late in the day', { key: '5', at: 9000 }, { key: '5', at: 9599 }, true],
  ] as const)('LV3: on a key: %s', (_case, last, press, second) => {
    expect(isSecondTap(last, press)).toBe(second);
  });

  it.each([
    ['nothing before', null, { at: 0, x: 100, y: 500 }, false],
    ['the same place at once', { at: 0, x: 100, y: 500 }, { at: 200, x: 110, y: 505 }, true],
    ['the same place after a while', { at: 0, x: 100, y: 500 }, { at: 450, x: 100, y: 500 }, false],
    ['the same place at once, late in the day', { at: 9000, x: 100, y: 500 }, { at: 9449, x: 100, y: 500 }, true],
    ['just short of a thumb away', { at: 0, x: 100, y: 500 }, { at: 200, x: 123, y: 500 }, true],
    ['a thumb away', { at: 0, x: 100, y: 500 }, { at: 200, x: 124, y: 500 }, false],
    ['the next key', { at: 0, x: 100, y: 500 }, { at: 200, x: 172, y: 500 }, false],
  ] as const)('LV3: in a place: %s', (_case, last, touch, same) => {
    expect(isSamePlace(last, touch)).toBe(same);
  });
});
