import { expect, it } from 'vitest';
import { coefficientsView } from '#lib/blind/coefficientsView';
import { coefficientsViewSchema } from '#lib/contract/boardView';

const quince = { quince: 'quince' };
const one = { value: 0.5, low: 0.25, high: null, ...quince };
const none = { undefined: 'one seat only', ...quince };

it('BL2, ST1: every coefficient under one flat name, by value and interval or by why there is none, and nothing beside', () => {
  const groups = { percent: one, kappa: none, alpha: { ordinal: one, nominal: none }, empty: {} };
  const view = coefficientsView({ sheet: groups, byCriterion: { neck: groups, ears: {} } } as unknown as Parameters<
    typeof coefficientsView
  >[0]);
  const [told, why] = [{ value: 0.5, low: 0.25, high: null }, { undefined: 'one seat only' }];
  const flat = { percent: told, kappa: why, 'alpha.ordinal': told, 'alpha.nominal': why };
  expect(view).toEqual({ sheet: flat, byCriterion: { neck: flat, ears: {} } });
  expect(coefficientsViewSchema.safeParse(view).error).toBeUndefined();
});

it('ST1: a group whose coefficient is named like a field of one is still a group', () => {
  const named = { sheet: { odd: { value: one, undefined: none } }, byCriterion: {} };
  expect(coefficientsView(named as unknown as Parameters<typeof coefficientsView>[0]).sheet).toEqual({
    'odd.value': { value: 0.5, low: 0.25, high: null },
    'odd.undefined': { undefined: 'one seat only' },
  });
});
