import { expect, it } from 'vitest';
import { sessionLife, sessionOver } from '#lib/access/sessionLife';

const hour = 3_600_000;

it('BL9: a seat’s session ends after twelve hours unused, and after 36 hours however it is used', () => {
  const seat = { owner: false, createdAt: 0 };
  expect(sessionOver({ ...seat, seenAt: 0 }, 12 * hour)).toBe(true);
  expect(sessionOver({ ...seat, seenAt: 35 * hour }, 36 * hour)).toBe(true);
  expect(sessionOver({ ...seat, seenAt: 0 }, 12 * hour - 1)).toBe(false);
  expect(sessionOver({ ...seat, seenAt: 30 * hour }, 36 * hour - 1)).toBe(false);
});

it('BL9: times are counted from when a session was made, and a use before that is none', () => {
  const seat = { owner: false, createdAt: 100 * hour };
  expect(sessionOver({ ...seat, seenAt: 0 }, 112 * hour - 1)).toBe(false);
  expect(sessionOver({ ...seat, seenAt: 0 }, 112 * hour)).toBe(true);
  expect(sessionOver({ ...seat, seenAt: 130 * hour }, 136 * hour - 1)).toBe(false);
  expect(sessionOver({ ...seat, seenAt: 130 * hour }, 136 * hour)).toBe(true);
  expect(sessionLife).toEqual({
    seat: { idle: 43_200_000, whole: 129_600_000 },
    owner: { idle: 2_592_000_000, whole: 15_552_000_000 },
  });
});

it('BL9: the owner’s session ends after thirty days unused', () => {
  expect(sessionOver({ owner: true, createdAt: 0, seenAt: 0 }, sessionLife.owner.idle)).toBe(true);
  expect(sessionOver({ owner: true, createdAt: 0, seenAt: 0 }, sessionLife.owner.idle - 1)).toBe(false);
});
