import { describe, expect, it } from 'vitest';
import { missingSteps, stepField, stepsFor } from '#app/score/steps';
import { oneSidedRows, twoSidedRows } from '#app/score/scaleRows';
import { registerOf } from '#lib/evaluation/outboxState';
import type { OwnAnswer } from '#lib/evaluation/ownAnswers';
import { fullSheet } from '#lib/sheet/shippedSheets';

const labels = { low: 'low end', middle: 'between', high: 'high end' };
const spanOf = (layout: ReturnType<typeof oneSidedRows>) =>
  layout.rows.flatMap((row) => row.options).reduce((sum, option) => sum + option.columns, 0);

describe('what a seat is asked', () => {
  it('SA1: what needs hands is asked of hands only, criteria and checks alike', () => {
    const needs = (kind: 'hands' | 'live' | 'photographs') =>
      stepsFor(fullSheet, kind, 'dog').filter(
        (step) => ('criterion' in step && step.criterion.handsOnly) || ('check' in step && step.check.handsOnly),
      );
    expect(needs('live')).toEqual([]);
    expect(needs('photographs')).toEqual([]);
    expect(needs('hands').map(stepField)).toEqual([
      'score:spring-of-rib',
      'check:testicles',
      'check:palate',
      'check:navel-and-groin',
      'check:tail',
      'check:dewclaws',
    ]);
  });

  it('SA1: hands are asked every criterion and check, testicles of dogs only, the overall impression last', () => {
    const fields = (sex: 'dog' | 'bitch') => stepsFor(fullSheet, 'hands', sex).map(stepField);
    expect(fields('dog').filter((field) => field.startsWith('score:'))).toHaveLength(22);
    expect(fields('dog').filter((field) => field.startsWith('check:'))).toHaveLength(11);
    expect(fields('bitch')).toEqual(fields('dog').filter((field) => field !== 'check:testicles'));
    expect(fields('dog').slice(-2)).toEqual(['manner', 'overall']);
  });

  it('SA1: "cannot judge" is an answer, a cleared score is not, and a free-stance score is never missed', () => {
    const steps = stepsFor(fullSheet, 'live', 'bitch');
    const answer = (cannotJudge: boolean): OwnAnswer => ({
      body: { kind: 'score', criterion: 'neck', value: null, cannotJudge },
      counter: 1,
      place: 'phone',
      code: null,
    });
    const missing = (cannotJudge: boolean) =>
      missingSteps(steps, 's', new Map([[registerOf('s', 'score:neck'), answer(cannotJudge)]])).map(stepField);
    expect(missing(true)).not.toContain('score:neck');
    expect(missing(false)).toContain('score:neck');
    expect(missing(false).some((field) => field.startsWith('free:'))).toBe(false);
  });
});

describe('keys', () => {
  it('a one-sided scale of 3 to 11 steps fills whole rows with its steps in order and one way to say "cannot judge"', () => {
    for (let count = 3; count <= 11; count += 1) {
      const layout = oneSidedRows({ low: 1, high: count }, labels);
      const keys = layout.rows.flatMap((row) => row.options).map((option) => option.key);
      expect(keys).toEqual([...Array.from({ length: count }, (_, index) => String(index + 1)), 'cannot']);
      expect(spanOf(layout) % layout.columns).toBe(0);
    }
  });

  it('a two-sided scale runs from -3 to +3, each side named aloud', () => {
    const options = twoSidedRows({ tooLittle: 'too short', tooMuch: 'too long' }).rows.flatMap((row) => row.options);
    expect(options.filter((option) => option.key !== 'cannot').map((option) => Number(option.key))).toEqual([
      -3, -2, -1, 0, 1, 2, 3,
    ]);
    for (const option of options.filter((one) => Number(one.key) < 0)) expect(option.aloud).toContain('too short');
    for (const option of options.filter((one) => Number(one.key) > 0)) expect(option.aloud).toContain('too long');
  });
});
