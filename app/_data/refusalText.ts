import { NoAnswer } from './fetchInTime';

/** Words for people, by refusal code. The server sends codes only. */
const words: Readonly<Record<string, string>> = {
  'not-signed-in': 'This browser has no seat yet. Open the link you were sent.',
  'not-allowed': 'Your seat may not do this.',
  'not-found': 'This is not here, or not for your seat.',
  'wrong-phase': 'This cannot be done at this point of the evaluation.',
  'bad-input': 'Something typed here cannot be used. Nothing was changed.',
  'out-of-scale': 'That score is off the scale. Nothing was changed.',
  'other-version':
    'The server runs another version of Evenstack than this page. Load the page anew. Nothing was changed.',
  'link-dead': 'This link has been used or replaced. Ask the owner for a fresh one.',
  'wrong-secret': 'That is not right, or no longer good. Look at it again, or ask for a fresh one.',
  'still-open': 'Something else has to be finished first.',
  'not-confirmed':
    'Somebody has not agreed to the pick order yet. Ask them to confirm it from their own seat, or open without, which goes on the record.',
  'learner-first': 'The learner locks first; your lock then shows both cards to both of you.',
  'lesson-seats':
    'A lesson has two seats that score: the learner’s and the mentor’s. A third may be here without a card.',
  'looks-spent': 'The agreed number of second looks for this place is used up. Decide on other grounds, and say so.',
  'look-awaited':
    'Whoever does not answer a look closes it only when nobody is awaited any more. If a seat has gone, the owner ends its session in the set-up; then it is not awaited.',
  'own-card-open': 'Lock your own card first.',
  'out-of-step':
    'The server holds other answers than this device shows. They are read again now: look your card over, then lock. Nothing was changed.',
  'not-eligible': 'This puppy does not fit this place in the pick order.',
  unexamined: 'Nobody examined some checks of this puppy. Read which, and say that you pick it all the same.',
  'on-hold': 'A check holds this puppy until a veterinary answer clears it. Record one, or choose another puppy.',
  'day-past': 'That day is past. Choose a day ahead. Nothing was changed.',
  'in-use': 'This is taken already.',
  'too-many': 'Too many. Wait a little, or remove one first.',
  busy: 'The server is busy. Try again in a moment.',
  'disk-full': 'The server’s disk is full: this was not stored there. It is tried again until the owner has made room.',
  'store-failed':
    'The server’s disk failed: it takes nothing more until it is started again. What it confirmed before is kept.',
  'file-kind':
    'This is neither a picture nor a clip that can be shown. Send a JPEG, PNG or WebP picture, or an MP4 or WebM clip.',
  'file-heic':
    'This picture is in a form (HEIC) that most browsers cannot show. On the phone choose “most compatible” for the camera, or share the picture as JPEG, and send that.',
  'file-unreadable':
    'This file is damaged or cut short. Open it on your device; if it shows there, save it anew as JPEG and send that.',
  'file-damaged':
    'This picture arrived at the server other than it was sent, and was not kept there. It is still on this device.',
  'file-too-large':
    'This file is too large: a picture may have 20 megabytes, a clip 60. Make it smaller, or take it again at a lower setting.',
  'picture-too-big':
    'This picture has more than 50 million pixels. Make it smaller and send it again; 2,000 across are enough.',
  'way-too-large':
    'Too large for the way there: something between this device and the server takes nothing of this size. It is still on this device. Try again in another network, or make it smaller.',
  'way-refused':
    'Something between this device and the server refuses this. It is still on this device. Try again in another network.',
  'foreign-page':
    'This page was opened by another address than the one the server is called by, so it takes no change from it. Open the page by the address that was printed when the server started.',
  'unknown-host':
    'The server is not known by the name in this address. Open the page by the address that was printed when it started.',
  stopping: 'The server is being stopped. Try again once it runs.',
  'too-large': 'This is too large for one call. Nothing was changed: make it smaller, or send it in parts.',
  anonymous:
    'This panel is anonymous. A file of everything would say who gave which score, so there is none; the CSV files hold your own.',
  'not-bound':
    'This evaluation was begun under an earlier version, and its record does not bind all of it. Nobody could check it from a file, so there is none.',
  imported: 'This evaluation came in a file from another Evenstack and is only read here. Nothing was changed.',
  'file-refused': 'This file cannot be taken in. Nothing was changed.',
  'already-here': 'The evaluation in this file is here already. Nothing was changed.',
  'clip-too-long': 'This clip is longer than 30 seconds. Cut it, and send the part that shows the puppy standing.',
};

/** What to tell a person about an error from the server or the network. */
export function refusalText(error: unknown): string {
  if (typeof error !== 'object' || error === null || !('data' in error)) return noLinkText(error);
  const { data } = error;
  if (typeof data !== 'object' || data === null || !('code' in data)) return noLinkText(error);
  if (data.code === 'too-many' && 'details' in data) return tooManyText(data.details);
  const known = words[String(data.code)];
  const id = 'requestId' in data ? String(data.requestId).slice(0, 8) : '';
  return known ?? `Something went wrong on the server (${id}). What you typed is still here.`;
}

/** Whether a change was made is not known here; every call may be made again, and nothing is made twice. */
function noLinkText(error: unknown): string {
  const cause = error instanceof Error && error.cause instanceof NoAnswer ? error.cause : error;
  if (!(cause instanceof NoAnswer)) return 'No link to the server.';
  return cause.why === 'late'
    ? 'No link to the server: it did not answer in time. Try again; nothing is done twice.'
    : 'No link to the server: something else answered in its place, perhaps the sign-in page of this network. Try again once the network lets you through.';
}

/** A limit that passes says when. */
function tooManyText(details: unknown): string {
  const seconds = typeof details === 'object' && details !== null && 'seconds' in details ? Number(details.seconds) : 0;
  if (!(seconds > 0)) return words['too-many'] ?? '';
  const wait =
    seconds > 90 ? `${Math.ceil(seconds / 60)} minutes` : seconds === 1 ? 'one second' : `${seconds} seconds`;
  return `That was too often in a short time. Wait ${wait}, then try again.`;
}

/** The code of a refusal and its details (ids, limits, the place of a fault); null when the server did not refuse. */
export function refusalDetails(
  error: unknown,
): { readonly code: string; readonly details: Readonly<Record<string, unknown>> } | null {
  if (!isRecord(error) || !isRecord(error.data) || typeof error.data.code !== 'string') return null;
  return { code: error.data.code, details: isRecord(error.data.details) ? error.data.details : {} };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
