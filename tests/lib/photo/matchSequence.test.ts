import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Match, matchFrom, plannedMatches, rematch } from '#lib/photo/shot';

const puppyIds = ['fern', 'moss'];
const views = ['left-side', 'front', 'rear'] as const;
const words = (matches: readonly Match[]) => matches.map(({ puppyId, view }) => `${puppyId} ${view}`);

it('puppy by puppy takes every view of one and then the next; view by view one view of every puppy', () => {
  expect(words(plannedMatches({ puppyIds, views, order: 'puppy by puppy' }))).toEqual([
    'fern left-side',
    'fern front',
    'fern rear',
    'moss left-side',
    'moss front',
    'moss rear',
  ]);
  expect(words(plannedMatches({ puppyIds, views, order: 'view by view' }))).toEqual([
    'fern left-side',
    'moss left-side',
    'fern front',
    'moss front',
    'fern rear',
    'moss rear',
  ]);
});

it('one correction with those after it puts a shot that was missed, or taken twice, right with one choice', () => {
  const plan = plannedMatches({ puppyIds, views, order: 'puppy by puppy' });
  const matches = matchFrom(plan, 0, 5);
  const skipped = rematch(matches, plan, { at: 1, match: { puppyId: 'fern', view: 'rear' }, onwards: true });
  expect(words(skipped)).toEqual(['fern left-side', 'fern rear', 'moss left-side', 'moss front', 'moss rear']);
  expect(words(rematch(matches, plan, { at: 1, match: { puppyId: 'moss', view: 'bite' }, onwards: true }))[1]).toBe(
    'moss bite',
  );
});

it('every picture gets a match, whatever the counts, and a correction touches nothing before it', () => {
  const plan = plannedMatches({ puppyIds, views, order: 'view by view' });
  fc.assert(
    fc.property(fc.nat(60), fc.nat(5), fc.nat(59), fc.nat(5), fc.boolean(), (count, start, at, to, onwards) => {
      const matches = matchFrom(plan, start, count);
      expect(matches).toHaveLength(count);
      const [match = { puppyId: 'fern', view: 'front' } as const] = plan.slice(to);
      const corrected = rematch(matches, plan, { at: Math.min(at, Math.max(0, count - 1)), match, onwards });
      expect(corrected).toHaveLength(count);
      expect(corrected.slice(0, Math.min(at, Math.max(0, count - 1)))).toEqual(
        matches.slice(0, Math.min(at, Math.max(0, count - 1))),
      );
    }),
  );
  expect(matchFrom([], 0, 3)).toEqual([]);
});
