/** changed: rows of the outbox changed on disk. left: the seat has signed out on this device. */
export type PageWord = 'changed' | 'left';

let channel: BroadcastChannel | null = null;

/** One channel to this device's other pages, for hearing and telling, so that a page does not hear itself. */
export function otherPages(): BroadcastChannel | null {
  if (typeof BroadcastChannel === 'function') channel ??= new BroadcastChannel('evenstack-outbox');
  return channel;
}

export function tellOtherPages(word: PageWord): void {
  otherPages()?.postMessage(word);
}

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
