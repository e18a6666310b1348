import { expect, it } from 'vitest';
import { ageInDays, followUpDates } from '#lib/evaluation/ages';

const days = (whelpedOn: string) => followUpDates(whelpedOn).map(({ day }) => day);

it('SA3: four days to look again are named, and by no other words', () => {
  expect(followUpDates('2026-07-18').map(({ key }) => key)).toEqual([
    'twelve-weeks',
    'six-months',
    'twelve-months',
    'two-years',
  ]);
});

it('follow-ups fall twelve weeks, six and twelve months and two years after whelping', () => {
  expect(days('2026-07-18')).toEqual(['2026-10-10', '2027-01-18', '2027-07-18', '2028-07-18']);
});

it('a day that a month does not have is that month’s last', () => {
  expect(days('2023-08-31')).toEqual(['2023-11-23', '2024-02-29', '2024-08-31', '2025-08-31']);
  expect(days('2024-02-29')).toEqual(['2024-05-23', '2024-08-29', '2025-02-28', '2026-02-28']);
});

it('SC3: age is in whole days, leap days and summer time included', () => {
  expect(ageInDays('2026-07-18', '2026-09-12')).toBe(56);
  expect(ageInDays('2028-02-28', '2028-03-01')).toBe(2);
  expect(ageInDays('2026-03-28', '2026-03-30')).toBe(2);
  expect(ageInDays('2026-09-12', '2026-07-18')).toBe(-56);
});
