import { vi } from 'vitest';

const { waitFor } = vi;

// One second, which is the runner's own patience, is a bound on how long a busy machine takes; a test waits for what it sees.
if (waitFor.name !== 'waitPatiently') {
  vi.waitFor = function waitPatiently(callback, options) {
    return waitFor(callback, { timeout: 60_000, ...(typeof options === 'number' ? { timeout: options } : options) });
  };
}
