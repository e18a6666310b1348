import { describe, expect, it } from 'vitest';
import { criterionSchema, views } from '#lib/sheet/criterion';
import { fullSheet, shortSheet } from '#lib/sheet/shippedSheets';
import { sheetSchema } from '#lib/sheet/sheet';

const keys = fullSheet.criteria.map(({ key }) => key);
const named = (key: string) => {
  const found = fullSheet.criteria.find((criterion) => criterion.key === key);
  if (!found) throw new Error(`no criterion ${key}`);
  return found;
};

describe('the sheets', () => {
  it('hold 22 criteria and twelve, each with all eleven checks, on seven steps', () => {
    expect([fullSheet.criteria.length, fullSheet.checks.length]).toEqual([22, 11]);
    expect([shortSheet.criteria.length, shortSheet.checks.length]).toEqual([12, 11]);
    expect([fullSheet.scale, shortSheet.scale]).toEqual([
      { low: 1, high: 7 },
      { low: 1, high: 7 },
    ]);
  });

  it('pass the same schema as an own sheet: every text within its limit, keys unique', () => {
    expect(sheetSchema.parse(fullSheet)).toEqual(fullSheet);
    expect(sheetSchema.parse(shortSheet)).toEqual(shortSheet);
    expect(new Set(keys).size).toBe(22);
  });

  it('run through the views in order, each view in one piece', () => {
    for (const { criteria } of [fullSheet, shortSheet]) {
      const places = criteria.map(({ view }) => views.indexOf(view));
      expect(places).toEqual([...places].sort((a, b) => a - b));
    }
    expect(new Set(fullSheet.criteria.map(({ view }) => view)).size).toBe(views.length);
  });

  it('ask the overall impression nowhere: it stays outside merit', () => {
    expect(keys.filter((key) => key.includes('overall'))).toEqual([]);
  });

  it('keep the same criterion in both', () => {
    for (const criterion of shortSheet.criteria) expect(named(criterion.key)).toBe(criterion);
  });
});

describe('the criteria', () => {
  it('SA2: fifteen can miss the ideal on both sides', () => {
    // common practice, no source
    const bothSides = [
      'body-length',
      'leg-and-depth',
      'neck',
      'pasterns-and-front-feet',
      'spring-of-rib',
      'topline-and-loin',
      'croup-and-tail-set',
      'tail',
      'stifle-and-thigh',
      'rear-from-behind',
      'bone-and-substance',
      'head-proportion',
      'eye-and-expression',
      'ears',
      'coat-and-colour',
    ];
    expect(
      fullSheet.criteria
        .filter(({ twoSided }) => twoSided)
        .map(({ key }) => key)
        .sort(),
    ).toEqual(bothSides.sort());
  });

  it('SA2: where more is better, the top step stops at what the breed asks', () => {
    for (const criterion of fullSheet.criteria) {
      if (criterion.twoSided) expect(criterion.anchors.asked, criterion.key).toMatch(/as the breed asks/);
      else
        expect(criterion.anchors.high, criterion.key).toMatch(
          /as the breed asks.* no|as the breed asks and not beyond/,
        );
    }
  });

  it('only the ribs need a hand; what needs one rests on nothing a picture shows', () => {
    // common practice, no source: a camera shows something of every criterion but the spring of rib
    const handsOnly = fullSheet.criteria.filter((criterion) => criterion.handsOnly);
    expect(handsOnly.map(({ key, evidence }) => ({ key, evidence }))).toEqual([
      { key: 'spring-of-rib', evidence: ['hands'] },
    ]);
    for (const { key, evidence, handsOnly: felt } of fullSheet.criteria)
      expect(evidence.includes('photograph'), key).toBe(!felt);
  });

  it('ask for a free-stance score of topline and front legs, nothing else', () => {
    expect(fullSheet.criteria.filter(({ freeStance }) => freeStance).map(({ key }) => key)).toEqual([
      'topline-and-loin',
      'front-legs',
    ]);
    expect(named('topline-and-loin').evidence).toContain('free-stance');
    expect(named('front-legs').evidence).toContain('free-stance');
  });

  it('common practice on front feet and on drop-eared retrieving heads stands in the words', () => {
    // common practice, no source
    expect(named('front-legs').steadiness.note).toMatch(/front feet first and parallel/);
    const asked = (key: string) => {
      const criterion = named(key);
      return criterion.twoSided ? criterion.anchors.asked : '';
    };
    expect(asked('ears')).toMatch(/drop-eared retrieving heads the leather reaches the inner corner of the eye/);
    expect(asked('head-proportion')).toMatch(/drop-eared retrieving heads the muzzle is about as long as the skull/);
  });

  it('never show the same words at two ends', () => {
    for (const { key, anchors, labels } of fullSheet.criteria) {
      expect(new Set(Object.values(anchors)).size, key).toBe(3);
      expect(new Set(Object.values(labels)).size, key).toBe(Object.values(labels).length);
    }
  });
});

describe('an own sheet', () => {
  const own = { ...shortSheet, name: 'Ours' };
  const criterion = named('neck');

  it.each([
    ['no criterion', { ...own, criteria: [] }],
    ['a key twice', { ...own, criteria: [criterion, criterion] }],
    [
      '41 criteria',
      { ...own, criteria: Array.from({ length: 41 }, (_, place) => ({ ...criterion, key: `own-${place}` })) },
    ],
    ['two steps', { ...own, scale: { low: 1, high: 2 } }],
    ['twelve steps', { ...own, scale: { low: 1, high: 12 } }],
    ['a scale upside down', { ...own, scale: { low: 7, high: 1 } }],
    ['a scale no score could be kept on', { ...own, scale: { low: 10, high: 16 } }],
    ['half steps', { ...own, scale: { low: 1, high: 6.5 } }],
    ['an unknown check', { ...own, checks: ['hips'] }],
    ['a check twice', { ...own, checks: ['bite', 'bite'] }],
    ['a blank name', { ...own, name: '   ' }],
    ['a field of its own', { ...own, total: 100 }],
  ])('is refused with %s', (_, sheet) => {
    expect(sheetSchema.safeParse(sheet).success).toBe(false);
  });

  it.each([
    ['a name of 81 characters', { ...criterion, name: 'n'.repeat(81) }],
    ['a text of 301 characters', { ...criterion, why: 'w'.repeat(301) }],
    ['a label of 21 characters', { ...criterion, labels: { tooLittle: 'l'.repeat(21), tooMuch: 'm' } }],
    ['an empty anchor', { ...criterion, anchors: { ...criterion.anchors, asked: '' } }],
    ['one-sided anchors on a two-sided criterion', { ...criterion, anchors: { low: 'a', middle: 'b', high: 'c' } }],
    ['a key that is no plain word', { ...criterion, key: '__proto__' }],
    ['no evidence', { ...criterion, evidence: [] }],
    ['evidence named twice', { ...criterion, evidence: ['hands', 'hands'] }],
  ])('refuses a criterion with %s', (_, changed) => {
    expect(criterionSchema.safeParse(changed).success).toBe(false);
  });

  it('is taken at the limits: eleven steps, forty criteria, longest texts, trimmed', () => {
    const long = { ...criterion, name: ` ${'n'.repeat(80)} `, why: 'w'.repeat(300) };
    const criteria = Array.from({ length: 40 }, (_, place) => ({ ...long, key: `own-${place}` }));
    const taken = sheetSchema.parse({ ...own, scale: { low: 0, high: 10 }, criteria });
    expect(taken.criteria[39]?.name).toBe('n'.repeat(80));
    expect(sheetSchema.safeParse({ ...own, scale: { low: -1, high: 1 }, checks: [] }).success).toBe(true);
  });
});
