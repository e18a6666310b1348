import { describe, expect, it } from 'vitest';
import { slotSentences } from '../../app/_parts/slotWords';
import { hoursTyped } from '../../app/setup/PlanPart';

const slot = {
  taker: 'co-owner',
  seatId: 'co',
  purpose: 'keep',
  sex: 'bitch',
  condition: '',
  byWhen: 'ten weeks',
  ifFails: '',
} as const;
const own = { ...slot, taker: 'breeder', seatId: 'own' } as const;

describe('the pick order in plain words', () => {
  it('says of every place whether it comes before or after the breeder’s own keep', () => {
    const at = (slots: readonly (typeof slot | typeof own)[], place: number) =>
      slotSentences({ slots, ownerSeatId: 'own' }, place).terms[0];
    expect(at([slot, own], 0)).toBe('It comes before the breeder’s own keep, place 2.');
    expect(at([slot, own], 1)).toBe('This is the breeder’s own keep.');
    expect(at([own, slot], 1)).toBe('It comes after the breeder’s own keep, place 1.');
  });

  it('names what is not written down, and says nothing of a keep that nobody is named for', () => {
    const { lead, terms } = slotSentences({ slots: [slot], ownerSeatId: null }, 0);
    expect(lead).toBe('Place 1: co-owner takes a bitch, for a show or breeding keep.');
    expect(terms).toEqual([
      'No condition is written down.',
      'To be chosen by: ten weeks.',
      'Nothing is written down for a pick that fails a check.',
    ]);
  });
});

describe('hours since a meal as typed', () => {
  it('takes nothing as unknown, a comma as a point, and refuses what is no number from 0 to 72', () => {
    expect(['', ' ', '2', '1,5', '0', '72'].map(hoursTyped)).toEqual([null, null, 2, 1.5, 0, 72]);
    expect(['two', '73', '-1', '1.25'].map(hoursTyped)).toEqual([undefined, undefined, undefined, undefined]);
  });
});
