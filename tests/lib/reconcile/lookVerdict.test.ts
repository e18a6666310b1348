import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lookVerdict } from '#lib/reconcile/lookVerdict';
import type { SlotResult } from '#lib/reconcile/reconciliation';
import { lookVerdictSentence } from '#lib/reconcile/sentences/lookVerdictSentence';

const names = { f: 'Fern', m: 'Moss', s: 'Sorrel' };

function slotOf(chances: Readonly<Record<string, number>>): SlotResult {
  const list = Object.entries(chances).map(([puppy, probability]) => ({ puppy, probability }));
  const close = (list[0]?.probability ?? 1) < 0.8;
  return { key: 'one', purpose: 'show', chances: list, close, candidates: close ? list.slice(0, 2) : [], filledBy: list[0]?.puppy ?? null };
}

const said = (chances: Readonly<Record<string, number>>, [used, agreed]: readonly [number, number]) =>
  lookVerdictSentence(lookVerdict(slotOf(chances), { used, agreed }), names);
const level = { f: 0.6, m: 0.31, s: 0.09 };

describe('stop rule', () => {
  it('ST3: settled at 0.80, equal on structure when the agreed batches are used, else on', () => {
    fc.assert(fc.property(fc.double({ min: 0.34, max: 1, noNaN: true }), fc.nat(4), fc.integer({ min: 1, max: 4 }), (first, used, agreed) => {
      const { kind, candidates } = lookVerdict(slotOf({ f: first, m: 1 - first }), { used, agreed });
      expect(kind).toBe(first >= 0.8 ? 'settled' : used >= agreed ? 'equalOnStructure' : 'goOn');
      expect(candidates).toEqual(kind === 'settled' ? [] : ['f', 'm']);
    }));
  });

  it('ST1: nobody eligible leaves nothing to settle', () => {
    expect(lookVerdict(slotOf({}), { used: 0, agreed: 2 })).toMatchObject({ kind: 'settled', favoured: null });
    expect(said({}, [0, 2])).toBe('No eligible puppy is left for this place.');
  });
});

describe('what is said of it', () => {
  it('ST4: settled, on, and equal, each with the readings and no more', () => {
    expect(said({ f: 0.84, m: 0.16 }, [1, 2])).toBe('Fern is the best of those eligible in 84 of 100 readings of the scores and second looks: no further look is needed.');
    expect(said({ f: 0.84, m: 0.16 }, [0, 2])).toBe('Fern is the best of those eligible in 84 of 100 readings of the scores: no further look is needed.');
    expect(said(level, [0, 2])).toBe('Still open between Fern and Moss: Fern is the best of those eligible in 60 of 100 readings of the scores. 2 batches of second looks are left.');
    expect(said(level, [1, 2])).toBe('Still open between Fern and Moss: Fern is the best of those eligible in 60 of 100 readings of the scores and second looks. One batch of second looks is left.');
    expect(said(level, [2, 2])).toBe(
      'After 2 batches of second looks, Fern and Moss count as equal on structure: Fern is the best of those eligible in 60 of 100 readings of the scores and second looks, which is too close to call. That is a usual result; decide on other grounds.',
    );
  });

  it('ST4: never a certainty, and never 80 readings for what is not settled', () => {
    fc.assert(fc.property(fc.double({ min: 0.34, max: 1, noNaN: true }), fc.integer({ min: 0, max: 3 }), (first, used) => {
      const verdict = lookVerdict(slotOf({ f: first, m: 1 - first }), { used, agreed: 2 });
      const sentence = lookVerdictSentence(verdict, names);
      const shown = Number(/in (?:at least )?(\d+) of 100/.exec(sentence)?.[1]);
      expect(shown).toBeLessThan(100);
      expect(shown >= 80).toBe(verdict.kind === 'settled');
      expect(sentence.includes('equal')).toBe(verdict.kind === 'equalOnStructure');
    }));
  });
});
