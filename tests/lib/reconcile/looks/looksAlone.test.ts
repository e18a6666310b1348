import { describe, expect, it } from 'vitest';
import { looksAlone } from '#lib/reconcile/looks/looksAlone';
import type { LookAnswer } from '#lib/reconcile/panel/panel';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { looksAloneSentence } from '#lib/reconcile/sentences/looksAloneSentence';
import { expectWithin, readReferenceCase } from '../../stats/referenceCase';
import { examplePanel, questionOf } from '../examplePanel';

const look = (first: string, second: string, choice: LookAnswer['choice'] = 'first', evaluator = 'x'): LookAnswer => ({
  evaluator,
  purpose: 'show',
  first,
  second,
  choice,
});
const names = { f: 'Fern', m: 'Moss', s: 'Sorrel', b: 'Bay' };

/** The rows of a stored case (item, item, wins of either, ties) as answers of one seat each. */
function answersOf(id: string): { puppies: string[]; looks: LookAnswer[] } {
  const rows = readReferenceCase(id).data.rows as readonly (readonly [string, string, number, number, number?])[];
  const looks = rows.flatMap(([first, second, wins, losses, ties = 0]) => [
    ...Array.from({ length: wins }, () => look(first, second)),
    ...Array.from({ length: losses }, () => look(first, second, 'second')),
    ...Array.from({ length: ties }, () => look(second, first, 'tie')),
  ]);
  return { puppies: [...new Set(rows.flatMap(([first, second]) => [first, second]))], looks };
}

describe('looks without the scores', () => {
  it('bt-ties-springall: the abilities are those of the stored case, whichever way round a look is told', () => {
    const { puppies, looks } = answersOf('bt-ties-springall');
    const stored = readReferenceCase('bt-ties-springall').expected.find(
      ({ statistic }) => statistic === 'davidson_ability',
    );
    const { abilities, groups } = looksAlone(puppies, looks);
    if ('undefined' in abilities) throw new Error(abilities.undefined);
    expect(groups).toEqual([puppies]);
    const reference = abilities.find(({ item }) => item === 's1')?.ability ?? NaN;
    for (const [item, value] of Object.entries(stored?.values as Record<string, number>)) {
      const found = abilities.find((one) => one.item === item)?.ability ?? NaN;
      expectWithin(found - reference, value, { tolerance: stored?.tolerance ?? { abs: 0, rel: 0 }, what: item });
    }
    expect(abilities.map(({ ability }) => ability)).toEqual(
      abilities.map(({ ability }) => ability).toSorted((a, b) => b - a),
    );
  });

  it('bt-edge-not-connected: a puppy that never loses has no finite estimate, and that is said', () => {
    const { puppies, looks } = answersOf('bt-edge-not-connected');
    expect(looksAlone(puppies, looks).abilities).toEqual({ undefined: 'an item always or never wins' });
  });

  it('ST1: puppies that looks do not link get their groups and a reason, one puppy or none a reason too', () => {
    const apart = looksAlone(['f', 'm', 's', 'b'], [look('f', 'm'), look('m', 'f'), look('s', 'x'), look('x', 'b')]);
    expect(apart).toEqual({ groups: [['f', 'm'], ['s'], ['b']], abilities: { undefined: 'items not connected' } });
    expect(looksAlone(['f', 'm'], [])).toEqual({
      groups: [['f'], ['m']],
      abilities: { undefined: 'items not connected' },
    });
    expect(looksAlone(['f'], []).abilities).toEqual({ undefined: 'fewer than two items' });
    expect(looksAlone([], []).groups).toEqual([]);
    expect(looksAlone(['f', 'm', 's'], [look('s', 'm', 'tie'), look('s', 'f')]).groups).toEqual([['f', 'm', 's']]);
  });

  it('ST1: merit stands where looks do not link the puppies: there the scores speak', () => {
    const panel = examplePanel({ puppies: 4, evaluators: 3, oneSided: 3, twoSided: 0, missing: 0, seed: 5 });
    const [a = '', b = '', c = '', d = ''] = panel.puppies;
    const looks = [look(a, b, 'first', 'seat1'), look(c, d, 'second', 'seat2')];
    expect(looksAlone(panel.puppies, looks).groups.length).toBe(2);
    const answer = reconcile({ ...questionOf(panel), looks });
    expect(answer.purposes[0]?.merit.every(({ estimate, sd }) => Number.isFinite(estimate) && sd > 0)).toBe(true);
  });
});

describe('what is said of it', () => {
  const said = (groups: readonly (readonly string[])[]) =>
    looksAloneSentence({ groups, abilities: { undefined: 'items not connected' } }, names);

  it('ST4: nothing when all are linked; else which are not, and what then counts', () => {
    expect(said([['f', 'm']])).toBeNull();
    expect(said([])).toBeNull();
    expect(said([['f'], ['m'], ['s']])).toBe(
      'No second look has compared any of Fern, Moss and Sorrel: between these only the scores speak.',
    );
    expect(said([['f', 'm'], ['s']])).toBe(
      'Second looks have not compared Fern and Moss with Sorrel, directly or through others: between these only the scores speak.',
    );
    expect(said([['f', 'm'], ['s'], ['b']])).toBe(
      'Second looks have not compared Fern and Moss with Sorrel, nor with Bay, directly or through others: between these only the scores speak.',
    );
  });
});
