import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lookVerdict } from '#lib/reconcile/looks/lookVerdict';
import type { SlotResult } from '#lib/reconcile/merit/reconciliation';
import { settledFrom } from '#lib/reconcile/merit/slotResults';
import { lookVerdictSentence } from '#lib/reconcile/sentences/lookVerdictSentence';

const names = { f: 'Fern', m: 'Moss', s: 'Sorrel' };

function slotOf(chances: Readonly<Record<string, number>>, alike = 0, closeBelow = 0.8): SlotResult {
  const list = Object.entries(chances).map(([puppy, probability]) => ({ puppy, probability }));
  const close = (list[0]?.probability ?? 1) < closeBelow;
  return {
    key: 'one',
    purpose: 'show',
    chances: list,
    close,
    closeBelow,
    alike: close ? alike : 0,
    halfStep: 0.5,
    candidates: close ? list.slice(0, 2) : [],
    filledBy: list[0]?.puppy ?? null,
  };
}

const said = (slot: SlotResult, [used, agreed]: readonly [number, number]) =>
  lookVerdictSentence(lookVerdict(slot, { used, agreed }), names);
const level = { f: 0.6, m: 0.31, s: 0.09 };
const chance = fc.double({ min: 0.34, max: 1, noNaN: true });

describe('stop rule', () => {
  it('ST3: settled at the chance the place asks for; equal only when that is likely; else on until the agreed batches are used', () => {
    fc.assert(
      fc.property(
        chance,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom(0.6, 0.8, 0.9),
        fc.nat(4),
        (first, alike, closeBelow, used) => {
          const { kind, candidates } = lookVerdict(slotOf({ f: first, m: 1 - first }, alike, closeBelow), {
            used,
            agreed: 2,
          });
          expect(kind).toBe(
            first >= closeBelow ? 'settled' : alike >= 0.8 ? 'equalWithinHalf' : used >= 2 ? 'notSettled' : 'goOn',
          );
          expect(candidates).toEqual(kind === 'settled' ? [] : ['f', 'm']);
        },
      ),
    );
  });

  it('ST3: what a wrong pick costs moves the chance from which a place is settled', () => {
    expect([4, 1.5, 0.2, 99].map(settledFrom)).toEqual([0.8, 0.6, 0.5, 0.95]);
  });

  it('ST1: nobody eligible leaves nothing to settle', () => {
    expect(lookVerdict(slotOf({}), { used: 0, agreed: 2 })).toMatchObject({ kind: 'settled', leading: [] });
    expect(said(slotOf({}), [0, 2])).toBe('No eligible puppy is left for this place.');
  });
});

describe('what is said of it', () => {
  it('ST4: settled, on, equal and not settled, each with its readings and no more', () => {
    expect(said(slotOf({ f: 0.84, m: 0.16 }), [1, 2])).toBe(
      'Fern is the best of those eligible in 84 of 100 readings of the scores and second looks: no further look is needed.',
    );
    expect(said(slotOf({ f: 0.84, m: 0.16 }), [0, 2])).toBe(
      'Fern is the best of those eligible in 84 of 100 readings of the scores: no further look is needed.',
    );
    expect(said(slotOf(level), [0, 2])).toBe(
      'Still open between Fern and Moss: Fern is the best of those eligible in 60 of 100 readings of the scores. 2 batches of second looks are left.',
    );
    expect(said(slotOf(level), [1, 2])).toBe(
      'Still open between Fern and Moss: Fern is the best of those eligible in 60 of 100 readings of the scores and second looks. One batch of second looks is left.',
    );
    expect(said(slotOf(level), [2, 2])).toBe(
      'After 2 batches of second looks this place is not settled between Fern and Moss: it leans to Fern, the best of those eligible in 60 of 100 readings of the scores and second looks, to Moss in 31.',
    );
    expect(said(slotOf(level, 0.86), [1, 2])).toBe(
      'Fern and Moss lie within half a point of each other in 86 of 100 readings of the scores and second looks: decide between them on other grounds.',
    );
    expect(said({ ...slotOf(level, 0.86), halfStep: 1 / 3 }, [1, 2])).toContain('within 0.33 points of each other');
  });

  it('ST4: never a certainty, never the readings of a settled place for another, and "within" only where it is likely', () => {
    fc.assert(
      fc.property(
        chance,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom(0.6, 0.8, 0.9),
        fc.nat(3),
        (first, alike, closeBelow, used) => {
          const verdict = lookVerdict(slotOf({ f: first, m: 1 - first }, alike, closeBelow), { used, agreed: 2 });
          const sentence = lookVerdictSentence(verdict, names);
          const shown = Number(/in (?:at least )?(\d+) of 100/.exec(sentence)?.[1]);
          expect(shown).toBeLessThan(100);
          if (verdict.kind === 'equalWithinHalf') expect(shown).toBeGreaterThanOrEqual(80);
          else expect(shown >= Math.round(100 * closeBelow)).toBe(verdict.kind === 'settled');
          expect(sentence.includes('within')).toBe(verdict.kind === 'equalWithinHalf');
          expect(sentence.includes('not settled')).toBe(verdict.kind === 'notSettled');
        },
      ),
    );
  });
});
