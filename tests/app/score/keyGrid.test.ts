import { createElement } from 'react';
import { describe, expect, it } from 'vitest';
import { KeyGrid } from '../../../app/score/KeyGrid';
import { cannotJudgeKey, type KeyLayout, oneSidedRows, twoSidedRows } from '#app/score/scaleRows';
import { drawnElements, textOf } from '#tests/support/drawn';

const labels = { low: 'far from it', middle: 'in part', high: 'as looked for' };
const sides = { tooLittle: 'too short', tooMuch: 'too long' };
const grid = (layout: KeyLayout, chosen: string | null = null) =>
  createElement(KeyGrid, {
    label: 'Back',
    ...layout,
    chosen,
    onChoose: () => undefined,
    onNext: () => undefined,
    takeFocus: false,
  });
const keysOf = (layout: KeyLayout, chosen: string | null = null) => drawnElements(grid(layout, chosen), 'button');

describe('the keys of a scale', () => {
  it.each([
    [1, 3, 3],
    [1, 5, 3],
    [1, 7, 4],
    [0, 10, 3],
    [1, 10, 4],
  ])('from %i to %i: one key a step and one for “cannot judge”, in whole rows of %i', (low, high, columns) => {
    const layout = oneSidedRows({ low, high }, labels);
    const keys = keysOf(layout);
    expect(keys.map((key) => key['data-key'])).toEqual([
      ...Array.from({ length: high - low + 1 }, (_, at) => String(low + at)),
      cannotJudgeKey,
    ]);
    const spans = keys.map((key) => Number(key['data-span']));
    expect(layout.columns).toBe(columns);
    expect(spans.reduce((sum, span) => sum + span, 0) % columns).toBe(0);
    expect(spans.every((span) => span >= 1 && span <= columns)).toBe(true);
  });

  it('puts the words of the scale at its ends and its middle, and nowhere else', () => {
    expect(textOf(grid(oneSidedRows({ low: 1, high: 5 }, labels)))).toBe(
      '1 far from it 2 3 in part 4 5 as looked for cannot judge from here',
    );
  });

  it('says the side before each degree of a two-sided criterion, and its heading to the eye alone', () => {
    const layout = twoSidedRows(sides);
    expect(textOf(grid(layout))).toBe(
      'too short too short, 3 marked too short, 2 clear too short, 1 slight as asked cannot judge too long too long, 1 slight too long, 2 clear too long, 3 marked',
    );
    expect(drawnElements(grid(layout), 'p').map((one) => one['aria-hidden'])).toEqual(['true', 'true']);
  });

  it.each([[null], ['0'], ['-2'], [cannotJudgeKey]])('with %s chosen, that key is pressed and no other', (chosen) => {
    const pressed = keysOf(twoSidedRows(sides), chosen).filter((key) => key['aria-pressed'] === 'true');
    expect(pressed.map((key) => key['data-key'])).toEqual(chosen === null ? [] : [chosen]);
  });

  it('is one group under the name of its question, with plain buttons that send no form', () => {
    const layout = oneSidedRows({ low: 1, high: 5 }, labels);
    expect(drawnElements(grid(layout), 'div')[0]).toMatchObject({
      role: 'group',
      'aria-label': 'Back',
      'data-columns': '3',
    });
    expect(keysOf(layout).every((key) => key['type'] === 'button')).toBe(true);
  });
});
