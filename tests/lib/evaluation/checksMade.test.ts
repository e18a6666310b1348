import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  checksOfPuppy,
  checkState,
  homeChecksSentence,
  noHoldSentence,
  unexaminedChecks,
  unexaminedOf,
  unexaminedSentence,
} from '#lib/evaluation/checksMade';
import { type CheckKey, checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';

const outcomes = (check: CheckKey, said: readonly string[]) =>
  said.map((answer) => checkByKey(check)?.answers.find(({ key }) => key === answer)?.outcome);
const answersOf = (check: CheckKey) => checkByKey(check)?.answers.map(({ key }) => key) ?? [];

/** Any check, any sex, any answers that up to four seats may have given. */
const anyCheck = fc.constantFrom(...checkKeys).chain((check) =>
  fc.record({
    check: fc.constant(check),
    sex: fc.constantFrom('dog' as const, 'bitch' as const),
    said: fc.array(fc.constantFrom(...answersOf(check)), { maxLength: 4 }),
  }),
);

it('SA1: "normal" is said of a check only when a seat made it, and "found" whenever one found something', () => {
  fc.assert(
    fc.property(anyCheck, ({ check, sex, said }) => {
      const state = checkState(
        check,
        sex,
        said.map((answer) => ({ answer })),
      );
      const given = outcomes(check, said);
      const finding = given.includes('watch') || given.includes('not-normal');
      expect(state === 'found').toBe(finding);
      if (state === 'normal') expect(given).toContain('normal');
      if (given.every((outcome) => outcome === 'not-examined'))
        expect(['not-examined', 'does-not-apply']).toContain(state);
    }),
    { numRuns: 2000 },
  );
});

it.each([
  ['testicles', 'dog', [], 'not-examined'],
  ['testicles', 'bitch', [], 'does-not-apply'],
  ['testicles', 'dog', ['does-not-apply'], 'not-examined'],
  ['testicles', 'dog', ['not-examined', 'both-felt'], 'normal'],
  ['testicles', 'dog', ['both-felt', 'one-felt'], 'found'],
  ['dewclaws', 'bitch', ['does-not-apply', 'not-examined'], 'does-not-apply'],
  ['bite', 'bitch', ['not-examined', 'not-examined'], 'not-examined'],
] as const)('SA1: %s of a %s with %j is %s', (check, sex, said, state) => {
  expect(
    checkState(
      check,
      sex,
      said.map((answer) => ({ answer })),
    ),
  ).toBe(state);
});

const fern = { id: 'fern', name: 'Fern', sex: 'bitch', withdrawn: false } as const;
const moss = { id: 'moss', name: 'Moss', sex: 'dog', withdrawn: false } as const;
const sheet = { checks: ['testicles', 'bite', 'palate'] };

it.each([
  ['nothing was examined', [], 'Nobody examined anything: every check of every puppy is open.'],
  [
    'one puppy was',
    [{ puppy: 'fern', check: 'bite', answers: [{ answer: 'scissor' }] }],
    'Examined by nobody: Fern: palate; Moss: every check.',
  ],
  [
    'some were answered "not examined"',
    [
      { puppy: 'fern', check: 'bite', answers: [{ answer: 'scissor' }] },
      { puppy: 'fern', check: 'palate', answers: [{ answer: 'not-examined' }] },
      { puppy: 'moss', check: 'testicles', answers: [{ answer: 'both-felt' }] },
      { puppy: 'moss', check: 'bite', answers: [{ answer: 'level' }] },
      { puppy: 'moss', check: 'palate', answers: [{ answer: 'not-examined' }] },
    ],
    'Examined by nobody: Fern: palate; Moss: palate.',
  ],
] as const)('SA1: when %s, the sentence says what is open', (_, lines, sentence) => {
  expect(unexaminedSentence({ sheet, puppies: [fern, moss] }, lines)).toBe(sentence);
});

it('SA1: the sentence is silent only where everything that applies was examined, whatever was answered', () => {
  const line = (puppy: string) =>
    fc.constantFrom('testicles' as const, 'bite' as const, 'palate' as const).chain((check) =>
      fc.record({
        puppy: fc.constant(puppy),
        check: fc.constant(check),
        answers: fc.array(
          fc.constantFrom(...answersOf(check)).map((answer) => ({ answer })),
          { minLength: 1, maxLength: 3 },
        ),
      }),
    );
  fc.assert(
    fc.property(fc.array(fc.oneof(line('fern'), line('moss')), { maxLength: 8 }), (lines) => {
      const open = [fern, moss].flatMap((puppy) => unexaminedChecks(puppy, sheet.checks, lines));
      expect(unexaminedSentence({ sheet, puppies: [fern, moss] }, lines) === null).toBe(open.length === 0);
    }),
    { numRuns: 1000 },
  );
});

it.each([
  [
    'the sheet asked for none',
    { sheet: { checks: [] }, puppies: [fern] },
    [],
    'The sheet asks for no check, so none can hold a puppy.',
  ],
  [
    'one was made by nobody',
    { sheet: { checks: ['bite'] }, puppies: [fern] },
    [],
    'No check that was made holds a puppy.',
  ],
  [
    'all it asked for were made',
    { sheet: { checks: ['bite'] }, puppies: [fern] },
    [{ puppy: 'fern', check: 'bite', answers: [{ answer: 'scissor' }] }],
    'No check on the sheet holds a puppy.',
  ],
] as const)('SA1: that nothing holds is said of no more than was looked at: %s', (_, examined, lines, sentence) => {
  expect(noHoldSentence(examined, lines)).toBe(sentence);
});

it('SA1: a puppy that was withdrawn is not asked about', () => {
  expect(
    unexaminedSentence(
      {
        sheet,
        puppies: [
          { ...fern, withdrawn: true },
          { ...moss, withdrawn: true },
        ],
      },
      [],
    ),
  ).toBeNull();
});

const snapshot = {
  sheet: { checks: [...checkKeys] },
  puppies: [fern, moss],
  showings: [
    { id: 'a', puppyId: 'fern' },
    { id: 'b', puppyId: 'moss' },
  ],
  answers: [
    { subject: 'a', body: { kind: 'check', check: 'tail', answer: 'kink', detail: '' } },
    { subject: 'a', body: { kind: 'check', check: 'tail', answer: 'straight', detail: '' } },
    { subject: 'a', body: { kind: 'check', check: 'bite', answer: null, detail: '' } },
    { subject: 'b', body: { kind: 'check', check: 'gait', answer: 'not-examined', detail: '' } },
  ],
} as unknown as Parameters<typeof unexaminedOf>[0];

it('SA1: of a revealed round every check nobody made is named, those taken back included', () => {
  const open = new Map(unexaminedOf(snapshot).map(({ puppyId, checks }) => [puppyId, checks]));
  expect(open.get('fern')).toEqual(checkKeys.filter((key) => key !== 'testicles' && key !== 'tail'));
  expect(open.get('moss')).toEqual([...checkKeys]);
});

it('SA1: a finding that holds nothing is told with its own words alone', () => {
  expect(checksOfPuppy(snapshot, fern)).toMatchObject({ found: [{ check: 'tail', words: ['kink felt'] }], normal: [] });
});

it('SA3: what a home is told of the checks as a whole follows from what was made', () => {
  const [none, part, whole, found] = [
    [0, 0, 5],
    [0, 3, 2],
    [0, 5, 0],
    [1, 3, 1],
  ].map(([one = 0, two = 0, three = 0]) => homeChecksSentence({ found: one, normal: two, unexamined: three }));
  expect(none).toContain('None of the checks was made');
  expect(part).toContain('Not everything was examined');
  expect(part).toContain('that were made found nothing');
  expect(whole).toContain('Every check was made');
  expect(found).toContain('show it to your veterinary surgeon');
  expect(found).toContain('Not everything was examined');
});
