const patienceMs = 8000;

/**
 * Runs work while no other page of this device runs it. Where the browser has no locks (plain http), or a sleeping page
 * never lets go of one, it runs all the same: two senders are wasteful and harmless, none would be a loss.
 */
export async function aloneOnDevice(name: string, work: () => Promise<void>): Promise<void> {
  if (!('locks' in navigator)) return work();
  let started = false;
  try {
    await navigator.locks.request(name, { signal: AbortSignal.timeout(patienceMs) }, () => {
      started = true;
      return work();
    });
  } catch {
    if (!started) await work();
  }
}
