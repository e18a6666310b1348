import { afterEach, beforeEach, expect, vi } from 'vitest';

// A test that prints an error or a warning has found something: it fails rather than scroll past.
beforeEach(() => {
  vi.spyOn(console, 'error');
  vi.spyOn(console, 'warn');
});

afterEach(() => {
  expect(vi.mocked(console.error).mock.calls).toEqual([]);
  expect(vi.mocked(console.warn).mock.calls).toEqual([]);
  vi.restoreAllMocks();
});
