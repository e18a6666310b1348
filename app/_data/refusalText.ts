/** Words for people, by refusal code. The server sends codes only. */
const words: Readonly<Record<string, string>> = {
  'not-signed-in': 'This browser has no seat yet. Open the link you were sent.',
  'not-allowed': 'Your seat may not do this.',
  'not-found': 'This is not here, or not for your seat.',
  'wrong-phase': 'This cannot be done at this point of the evaluation.',
  'bad-input': 'Something typed here cannot be used. Nothing was changed.',
  'out-of-scale': 'That score is off the scale. Nothing was changed.',
  'link-dead': 'This link has been used or replaced. Ask the owner for a fresh one.',
  'still-open': 'Something else has to be finished first.',
  'own-card-open': 'Lock your own card first.',
  'out-of-step': 'The server holds other answers than this device shows. They are read again now: look your card over, then lock. Nothing was changed.',
  'not-eligible': 'This puppy does not fit this place in the pick order.',
  'on-hold': 'A check holds this puppy. Record a veterinary answer first, or choose another.',
  'in-use': 'This is taken already.',
  'too-many': 'Too many. Wait a little, or remove one first.',
  busy: 'The server is busy. Try again in a moment.',
  'disk-full': 'The server’s disk is full: this was not stored there. It is tried again until the owner has made room.',
  'store-failed': 'The server’s disk failed: it takes nothing more until it is started again. What it confirmed before is kept.',
};

/** What to tell a person about an error from the server or the network. */
export function refusalText(error: unknown): string {
  if (typeof error !== 'object' || error === null || !('data' in error)) return 'No link to the server.';
  const { data } = error;
  if (typeof data !== 'object' || data === null || !('code' in data)) return 'No link to the server.';
  const known = words[String(data.code)];
  const id = 'requestId' in data ? String(data.requestId).slice(0, 8) : '';
  return known ?? `Something went wrong on the server (${id}). What you typed is still here.`;
}
