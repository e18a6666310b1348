import { describe, expect, it } from 'vitest';
import { betaCdf, betaQuantile, betaUpperTail } from '#lib/stats/betaDistribution';
import { chiSquareCdf, chiSquareQuantile, chiSquareUpperTail } from '#lib/stats/chiSquareDistribution';
import { fCdf, fQuantile, fUpperTail } from '#lib/stats/fDistribution';
import { normalCdf, normalQuantile, normalUpperTail } from '#lib/stats/normalDistribution';
import { studentCdf, studentQuantile, studentUpperTail } from '#lib/stats/studentDistribution';
import { expectWithin, readReferenceCase, titled } from './referenceCase';

type Point = {
  distribution: string;
  x: number;
  p: number;
  df: number;
  df1: number;
  df2: number;
  shape1: number;
  shape2: number;
};
type Functions = { cdf: (o: Point) => number; upper: (o: Point) => number; quantile: (o: Point) => number };

const distributions: Record<string, Functions> = {
  normal: { cdf: (o) => normalCdf(o.x), upper: (o) => normalUpperTail(o.x), quantile: (o) => normalQuantile(o.p) },
  t: {
    cdf: (o) => studentCdf(o.x, o.df),
    upper: (o) => studentUpperTail(o.x, o.df),
    quantile: (o) => studentQuantile(o.p, o.df),
  },
  chi_square: {
    cdf: (o) => chiSquareCdf(o.x, o.df),
    upper: (o) => chiSquareUpperTail(o.x, o.df),
    quantile: (o) => chiSquareQuantile(o.p, o.df),
  },
  f: { cdf: (o) => fCdf(o.x, o), upper: (o) => fUpperTail(o.x, o), quantile: (o) => fQuantile(o.p, o) },
  beta: { cdf: (o) => betaCdf(o.x, o), upper: (o) => betaUpperTail(o.x, o), quantile: (o) => betaQuantile(o.p, o) },
};

const reference = readReferenceCase('dist-tables');

describe('dist-tables: distribution functions against 60-digit arithmetic', () => {
  it.each(titled('dist-tables', reference.expected))('%s', (name, entry) => {
    const point = entry.options as unknown as Point;
    const functions = distributions[point.distribution];
    if (!functions || typeof entry.value !== 'number') throw new Error(`unreadable entry ${name}`);
    const measure = { tolerance: entry.tolerance, what: name };
    if (entry.statistic === 'quantile') {
      expectWithin(functions.quantile(point), entry.value, measure);
      return;
    }
    expectWithin(functions.cdf(point), entry.value, measure);
    expectWithin(functions.upper(point), entry['upper_tail'] as number, { ...measure, what: `upper ${name}` });
  });

  it('ST1: the ends of every range are answered, not NaN', () => {
    expect([normalQuantile(0), normalQuantile(1), normalCdf(Infinity), normalCdf(-Infinity)]).toEqual([
      -Infinity,
      Infinity,
      1,
      0,
    ]);
    expect([studentQuantile(0, 3), studentQuantile(1, 3), studentCdf(Infinity, 3), studentCdf(-Infinity, 3)]).toEqual([
      -Infinity,
      Infinity,
      1,
      0,
    ]);
    expect([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3), chiSquareCdf(-1, 3), chiSquareCdf(Infinity, 3)]).toEqual([
      0,
      Infinity,
      0,
      1,
    ]);
    const degrees = { df1: 2, df2: 3 };
    expect([fQuantile(0, degrees), fQuantile(1, degrees), fCdf(-1, degrees), fCdf(Infinity, degrees)]).toEqual([
      0,
      Infinity,
      0,
      1,
    ]);
    const shapes = { shape1: 2, shape2: 3 };
    expect([betaQuantile(0, shapes), betaQuantile(1, shapes), betaCdf(-1, shapes), betaCdf(2, shapes)]).toEqual([
      0, 1, 0, 1,
    ]);
  });
});
