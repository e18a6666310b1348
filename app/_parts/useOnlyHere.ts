'use client';

import { useMutation } from '@tanstack/react-query';
import { countUnsent, type Unsent } from '../_data/ownData';
import { counted } from './textWords';

/** Counts, when asked, what is on this device and not on the server (LV2): leaving loses it. */
export function useOnlyHere() {
  return useMutation({ mutationFn: countUnsent });
}

/** What leaving would lose, in words; `unsent` is undefined where this device could not be read. */
export function onlyHereWords(unsent: Unsent | undefined): string {
  if (unsent === undefined)
    return 'Whether anything waits on this device could not be read. If anything does, it is lost once you have signed out.';
  const { entries, pictures, spare } = unsent;
  const kept =
    spare === 0
      ? ''
      : ` It also forgets ${counted(spare, 'answer')} that the server has: should it be restored from an earlier backup before the reveal, this browser could no longer send ${spare === 1 ? 'it' : 'them'} again.`;
  if (entries + pictures === 0) return `Everything entered on this device is on the server.${kept}`;
  const parts = [
    entries === 0 ? [] : counted(entries, 'entry', 'entries'),
    pictures === 0 ? [] : counted(pictures, 'picture'),
  ].flat();
  return `${parts.join(' and ')} ${entries + pictures === 1 ? 'is' : 'are'} only on this device. Signed out it cannot send them: they would be lost. Stay, go to scoring, and wait until it says that all are on the server.${kept}`;
}
