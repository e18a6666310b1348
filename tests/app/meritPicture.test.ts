import { createElement } from 'react';
import { describe, expect, it } from 'vitest';
import { MeritPicture } from '../../app/_parts/MeritPicture';
import type { BoardView } from '#lib/contract/boardView';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { drawnElements, textOf } from '#tests/support/drawn';

type Merit = BoardView['purposes'][number]['merit'][number];

const faces = new Map<string, PuppyFace>(
  (['Fern', 'Moss'] as const).map((name) => [
    name,
    {
      id: name,
      name,
      sex: name === 'Fern' ? 'bitch' : 'dog',
      collar: name === 'Fern' ? 'blue' : 'none',
      secondMark: '',
      withdrawn: false,
    },
  ]),
);

function meritOf(puppy: string, estimate: number, rest: Partial<Merit> = {}): Merit {
  return {
    puppy,
    estimate,
    sd: 0.3,
    low: estimate - 0.5,
    high: estimate + 0.5,
    halfLow: estimate - 0.2,
    halfHigh: estimate + 0.2,
    mean: estimate,
    ranks: [0.5, 0.5],
    ...rest,
  };
}

const picture = (merit: readonly Merit[]) =>
  createElement(MeritPicture, { merit, puppyOf: (id) => faces.get(id), label: 'Fern stands first.' });
const percent = (words: string | undefined) => Number(words?.replace('%', ''));
const dots = (merit: readonly Merit[]) =>
  drawnElements(picture(merit), 'circle').filter(({ cx }) => cx?.endsWith('%') === true);

describe('the merit picture', () => {
  it('is one picture with its finding in words', () => {
    expect(drawnElements(picture([meritOf('Fern', 1)]), 'div')[0]).toMatchObject({
      role: 'img',
      'aria-label': 'Fern stands first.',
    });
  });

  it('names each puppy by name, collar and sex, in the order handed in, with how often it is first', () => {
    const words = textOf(
      picture([meritOf('Moss', 0.4, { ranks: [0.61, 0.39] }), meritOf('Fern', -0.4, { ranks: [0.001, 0.999] })]),
    );
    expect(words).toMatch(/^first in Moss no collar , dog 61 of 100 Fern blue collar , bitch fewer than 1 of 100/);
  });

  it('keeps the line of a puppy that is no longer listed', () => {
    expect(textOf(picture([meritOf('gone', 0.1)]))).toContain('no longer listed 50 of 100');
  });

  it.each([
    ['apart', [meritOf('Fern', 1.2), meritOf('Moss', -0.8)]],
    ['hardly apart', [meritOf('Fern', 0.001), meritOf('Moss', -0.001)]],
    ['far to one side', [meritOf('Fern', 9), meritOf('Moss', 8)]],
    ['without any width', [meritOf('Fern', 0, { low: 0, high: 0, halfLow: 0, halfHigh: 0 })]],
  ])('with puppies %s: every place lies within the picture, and what is more stands further right', (_, merit) => {
    const at = dots(merit).map(({ cx }) => percent(cx));
    expect(at).toHaveLength(merit.length);
    expect(at.every((one) => one >= 0 && one <= 100)).toBe(true);
    expect(at).toEqual([...at].sort((one, other) => other - one));
    const ends = drawnElements(picture(merit), 'line').flatMap(({ x1, x2 }) =>
      [x1, x2].filter((one) => one?.endsWith('%') === true).map(percent),
    );
    expect(ends.length).toBeGreaterThan(0);
    expect(ends.every((one) => one >= 0 && one <= 100)).toBe(true);
  });

  it('draws no place that is not a number', () => {
    expect(JSON.stringify(drawnElements(picture([meritOf('Fern', 0.3, { mean: null })]), 'line'))).not.toMatch(
      /NaN|null|Infinity/,
    );
  });
});
