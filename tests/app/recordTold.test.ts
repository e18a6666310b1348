import { createElement, type ReactElement } from 'react';
import { expect, it } from 'vitest';
import { facesOf } from '#app/_evaluation/facesOf';
import { EvaluationProvider } from '../../app/_evaluation/evaluationContext';
import { FactsOfRecord } from '../../app/record/FactsOfRecord';
import { cssString } from '../../app/record/RecordScreen';
import { scoreOfRecord, ScoresOfRecord, WeightsOfRecord } from '../../app/record/ScoresOfRecord';
import type { BoardView } from '#lib/contract/boardView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { fullSheet } from '#lib/sheet/shippedSheets';
import { drawnElements, textOf } from '#tests/support/drawn';
import { factsAt, fern, mentor, moss, sorrel } from '#tests/support/evaluationFacts';

const facts = factsAt('sealed', { sheet: fullSheet, puppies: [fern, moss, { ...sorrel, withdrawn: true }] });
const evaluation = { ...facts, litterName: 'Autumn', breed: '', ageDays: 56, round: null } as unknown as EvaluationView;
const faces = facesOf(evaluation);
const drawn = (part: ReactElement) =>
  createElement(EvaluationProvider, {
    evaluation,
    link: { connected: true, lostAt: null, table: null },
    readAt: 0,
    children: part,
  });
const neck = fullSheet.criteria.find(({ key }) => key === 'neck');
const legs = fullSheet.criteria.find(({ key }) => key === 'front-legs');

it.each([
  [neck, { value: -2, cannotJudge: false }, '−2 too short'],
  [neck, { value: 3, cannotJudge: false }, '+3 too long'],
  [neck, { value: 0, cannotJudge: false }, '0 as asked'],
  [legs, { value: 5, cannotJudge: false }, '5'],
  [neck, { value: null, cannotJudge: true }, 'cannot judge'],
  [neck, undefined, '–'],
] as const)('ST3: a score in the record says to which side it leans', (criterion, dot, words) => {
  expect(scoreOfRecord(criterion, dot)).toBe(words);
});

const boardOf = (anonymous: boolean) =>
  ({
    anonymous,
    second: null,
    criteria: [
      {
        criterion: 'neck',
        dots: [-1, 2].map((value, at) => ({
          puppy: fern.id,
          seat: anonymous ? null : [mentor.id, facts.seats[0]?.id ?? ''][at],
          value,
          cannotJudge: false,
        })),
      },
    ],
  }) as unknown as BoardView;

it('ST3: every score stands under its puppy and its seat; in an anonymous panel in one row without a seat', () => {
  const named = textOf(drawn(createElement(ScoresOfRecord, { board: boardOf(false), faces })));
  expect(named).toContain('Neck +2 too long −1 too short');
  expect(named).toContain('Sorrel, withdrawn');
  const counted = textOf(drawn(createElement(ScoresOfRecord, { board: boardOf(true), faces })));
  expect(counted).toContain('Neck −1 too short, +2 too long');
  for (const { label } of facts.seats) expect(counted).not.toContain(label);
});

it('ST3: the record tells every weight of every purpose by the names of the criteria, and no key', () => {
  const section = drawn(createElement(WeightsOfRecord, { faces }));
  expect(drawnElements(section, 'tr')).toHaveLength(fullSheet.criteria.length + 1);
  expect(textOf(section)).toContain('Neck 3 1');
  expect(textOf(section)).not.toMatch(/[a-z]+-[a-z]+-[a-z]+/);
});

it('ST4: puppies are counted as the head of the page counts them', () => {
  expect(textOf(drawn(createElement(FactsOfRecord, { entries: [], faces })))).toContain(
    'Puppies 2 puppies, and 1 withdrawn',
  );
});

it('BL2: nothing typed ends the words at the head of a printed page', () => {
  expect(cssString('Quillmarsh · Acht Wochen, 12')).toBe('"Quillmarsh · Acht Wochen, 12"');
  for (const typed of ['"; } body { display: none', 'a\\', '</style><script>', 'a\nb'])
    expect(cssString(typed).slice(1, -1)).not.toMatch(/["<>;{}\n]|\\(?![0-9a-f]+ )/);
});
