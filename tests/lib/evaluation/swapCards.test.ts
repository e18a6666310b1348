import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EntryBody } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entries';
import { saysSomething } from '#lib/evaluation/ownAnswers';
import { type HeldAnswer, swapCards } from '#lib/evaluation/cards';

const fern = { subject: 'f'.repeat(32), bitch: true };
const yarrow = { subject: '7'.repeat(32), bitch: true };
const moss = { subject: '3'.repeat(32), bitch: false };
const elsewhere = 'e'.repeat(32);

const held = (subject: string, body: EntryBody, change: Partial<HeldAnswer> = {}): HeldAnswer => ({ subject, field: entryField(body), counter: 1, body, deviceId: 'first', ...change });
const score = (value: number | null): EntryBody => ({ kind: 'score', criterion: 'neck', value, cannotJudge: false });

const bodies = fc.oneof(
  fc.record({ kind: fc.constant('score' as const), criterion: fc.constantFrom('neck', 'topline'), value: fc.integer({ min: 1, max: 7 }), cannotJudge: fc.constant(false) }),
  fc.record({ kind: fc.constant('check' as const), check: fc.constantFrom('bite', 'eyes'), answer: fc.constantFrom('sound', 'level'), detail: fc.constant('') }),
  fc.record({ kind: fc.constant('note' as const), criterion: fc.constant(null), text: fc.string({ minLength: 1, maxLength: 5 }) }),
  fc.record({ kind: fc.constant('manner' as const), manner: fc.constantFrom('relaxed' as const, 'tense' as const) }),
);
const cards = fc.uniqueArray(
  fc.record({ subject: fc.constantFrom(fern.subject, yarrow.subject, elsewhere), body: bodies, counter: fc.integer({ min: 1, max: 9 }), deviceId: fc.constantFrom('first', 'second') }),
  { selector: ({ subject, body }) => `${subject} ${entryField(body)}` },
).map((list) => list.map(({ body, ...rest }): HeldAnswer => ({ ...rest, field: entryField(body), body })));

/** The register table after the entries. */
function after(before: readonly HeldAnswer[], one = fern, other = yarrow): HeldAnswer[] {
  const swapped = swapCards(before, one, other);
  const replaced = (answer: HeldAnswer) => swapped.some((entry) => entry.subject === answer.subject && entry.field === answer.field);
  return [...before.filter((answer) => !replaced(answer)), ...swapped];
}

const said = (list: readonly HeldAnswer[], subject: string) =>
  list.filter((answer) => answer.subject === subject && saysSomething(answer.body)).map(({ field, body, deviceId }) => ({ field, body, deviceId })).toSorted((a, b) => a.field.localeCompare(b.field));

describe('two cards of one seat that change places', () => {
  it('SC3: what was said of a dog’s testicles goes to no bitch, and stays in the history only', () => {
    const testicles = held(moss.subject, { kind: 'check', check: 'testicles', answer: 'both-down', detail: '' });
    const list = after([testicles, held(moss.subject, score(5))], moss, fern);
    expect(said(list, fern.subject).map(({ field }) => field)).toEqual(['score:neck']);
    expect(said(list, moss.subject)).toEqual([]);
  });

  it('SC3: two cards that say nothing give nothing to write', () => {
    expect(swapCards([held(elsewhere, score(5))], fern, yarrow)).toEqual([]);
  });

  it('SC2: a cleared answer does not come back, and every entry is the newest of its register', () => {
    const list = [held(fern.subject, score(5), { counter: 3 }), held(yarrow.subject, score(null), { counter: 8 })];
    expect(swapCards(list, fern, yarrow).map(({ subject, counter, body }) => [subject, counter, body])).toEqual([
      [yarrow.subject, 9, score(5)],
      [fern.subject, 4, score(null)],
    ]);
  });

  it('SC3, BL9: each says exactly what the other said, made by the same devices; nothing else changes; a second change undoes it', () => {
    fc.assert(
      fc.property(cards, (before) => {
        const once = after(before);
        expect(said(once, fern.subject)).toEqual(said(before, yarrow.subject));
        expect(said(once, yarrow.subject)).toEqual(said(before, fern.subject));
        expect(once.filter(({ subject }) => subject === elsewhere)).toEqual(before.filter(({ subject }) => subject === elsewhere));
        const twice = after(once);
        expect(said(twice, fern.subject)).toEqual(said(before, fern.subject));
        expect(said(twice, yarrow.subject)).toEqual(said(before, yarrow.subject));
        for (const { subject, field, counter } of swapCards(before, fern, yarrow)) {
          const standing = before.find((answer) => answer.subject === subject && answer.field === field);
          expect(counter).toBeGreaterThan(standing?.counter ?? 0);
        }
      }),
    );
  });
});
