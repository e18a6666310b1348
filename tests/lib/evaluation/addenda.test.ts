import { expect, it } from 'vitest';
import type { AddendumInput } from '#lib/contract/addendum';
import { decideAddendum } from '#lib/evaluation/addenda';
import { factsAt, fern, id, roundFacts } from '#tests/support/evaluationFacts';

const at = Date.parse('2026-10-10T12:00:00Z');
const behaviour: AddendumInput = { kind: 'behaviour', puppyId: fern.id, text: 'calm', by: 'the family' };
const veterinary: AddendumInput = {
  kind: 'veterinary',
  puppyId: fern.id,
  check: 'bite',
  text: 'fine',
  by: 'the practice',
  choice: { kind: 'cleared' },
};
const correction: AddendumInput = { kind: 'correction', puppyId: null, text: 'the day' };
const home: AddendumInput = { kind: 'home', puppyId: fern.id, text: 'came back' };
const revealed = factsAt('revealed');
const sealed = factsAt('sealed');

it.each([
  ['how a puppy behaves, before the reveal', factsAt('closed'), behaviour, 'wrong-phase'],
  [
    'how a puppy behaves, while a second round is open',
    { ...revealed, round: roundFacts({ occasion: 'second' }) },
    behaviour,
    'still-open',
  ],
  ['how a puppy behaves, while a look is open', { ...revealed, openBatchId: id('0') }, behaviour, 'still-open'],
  ['how a puppy behaves, under a sealed record', sealed, behaviour, 'wrong-phase'],
  ['how a puppy behaves that is not here', revealed, { ...behaviour, puppyId: id('0') }, 'not-found'],
  ['a veterinary answer, before the seal', revealed, veterinary, 'wrong-phase'],
  ['a correction, before the seal', revealed, correction, 'wrong-phase'],
  ['a home, before the seal', revealed, home, 'wrong-phase'],
  ['an answer to a check there is not', sealed, { ...veterinary, check: 'charm' }, 'not-found'],
  [
    'an answer with a day that is past',
    sealed,
    { ...veterinary, choice: { kind: 'again', on: '2026-10-08' } },
    'day-past',
  ],
  ['the home of a puppy that is not here', sealed, { ...home, puppyId: id('0') }, 'not-found'],
  ['a correction about a puppy that is not here', sealed, { ...correction, puppyId: id('0') }, 'not-found'],
] as const)('SC3: what the owner adds is refused: %s', (_case, facts, input, code) => {
  expect(decideAddendum(facts, input as AddendumInput, at)).toBe(code);
});

it.each([
  ['how a puppy behaves, while it is decided', revealed, behaviour],
  ['a veterinary answer under the seal', sealed, veterinary],
  ['one that is to be looked at again', sealed, { ...veterinary, choice: { kind: 'again', on: '2026-10-11' } }],
  ['a correction about no one puppy', sealed, correction],
  ['a correction about one', sealed, { ...correction, puppyId: fern.id }],
  ['a changed home', sealed, home],
] as const)('SC3: what the owner adds is taken: %s', (_case, facts, input) => {
  expect(decideAddendum(facts, input as AddendumInput, at)).toBeNull();
});
