import { counted } from './counted';

/** What leaving would lose, in words; `unsent` is undefined where this device could not be read. */
export function onlyHereWords(unsent: number | undefined): string {
  if (unsent === undefined) return 'Whether entries wait on this device could not be read. If any do, they are lost once you have signed out.';
  if (unsent === 0) return 'Everything entered on this device is on the server.';
  return `${counted(unsent, 'entry is', 'entries are')} only on this device. Signed out it cannot send them: they would be lost. Stay, go to scoring, and wait until it says that all are on the server.`;
}
