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
