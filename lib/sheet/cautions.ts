export type CautionKey =
  | 'handling'
  | 'hygiene'
  | 'not-veterinary'
  | 'hereditary'
  | 'extremes'
  | 'local-law'
  | 'warmth-and-rest'
  | 'fear'
  | 'early-days'
  | 'worth'
  | 'privacy';

type Caution = { readonly title: string; readonly text: string };

/** Said where they matter. None states an age in law or a medical verdict (SA3). */
export const cautions: Readonly<Record<CautionKey, Caution>> = {
  handling: {
    title: 'One hand on, always',
    text: 'A fall from a table or from arms can break a leg or worse. Low table, non-slip mat, one hand on the puppy, and never lift by leg, tail, head or neck. After a fall: stop, and call a veterinary surgeon.',
  },
  hygiene: {
    title: 'Clean hands, clean shoes',
    text: 'Puppies of this age are not yet safe from parvovirus, which travels on shoes, clothes and hands. Nobody comes straight from another kennel or a sick dog. Soap and running water, not gel alone; between litters, table and floor with a cleaner made for that virus.',
  },
  'not-veterinary': {
    title: 'Not a veterinary examination',
    text: 'Looks and feel are scored here. Hearts, joints, the inside of the eyes and hearing are not examined. Every puppy needs a veterinary surgeon before it goes to its home.',
  },
  hereditary: {
    title: 'Hereditary screening stays',
    text: 'No score replaces a breed’s tests for hips, elbows, eyes, heart or genes, which belong to their own ages and laboratories.',
  },
  extremes: {
    title: 'More is not better',
    text: 'A feature that costs breath, sight, skin, birth or movement is no merit, whatever the fashion. The best score is what the breed asks, never the most of it.',
  },
  'local-law': {
    title: 'Ask your local law',
    text: 'When a puppy may leave, travel, be sold, docked or have dewclaws removed differs from place to place. Nothing here says what is allowed where you are.',
  },
  'warmth-and-rest': {
    title: 'Warm, fed and rested',
    text: 'Keep the room warm and turns short, with a rest after five puppies. Small breeds must not go long without food: a weak or wobbly one needs help at once.',
  },
  fear: {
    title: 'No frights',
    text: 'A bad scare at this age may last. Stay calm and never force a second try. Stop when a puppy shivers, yawns again and again, struggles, goes limp or tries to get away.',
  },
  'early-days': {
    title: 'Early days',
    text: 'We know of no study that followed structure scores from eight weeks to adult dogs. This is a reading of one day: littermates compared, no promise for later.',
  },
  worth: {
    title: 'A low score is not low worth',
    text: 'Scores compare structure for one purpose. They say nothing about a puppy’s worth, and a companion home is no lesser place.',
  },
  privacy: {
    title: 'People’s details',
    text: 'Names, faces, chip numbers, addresses and an evaluator’s record are private. A new home gets its own puppy’s note and nobody else’s scores. Keep children out of pictures.',
  },
};

/** For everyone in the room, where they are: on the way in, before the first puppy, and at the table. */
export const roomCautions: readonly CautionKey[] = ['handling', 'hygiene', 'warmth-and-rest', 'fear'];

/** Asked of whoever comes to the puppies, before they come. */
export const visitorQuestion =
  'Coming to the puppies? Are you and your own dogs well today, and have you been in another kennel or at a show this week? If anything is amiss, ask the breeder before you come in.';

/** What every order leaves out, in the one sentence that purposes, board, decision, record and note share (SA5). */
export const structureAlone =
  'An order for a working or companion home speaks of structure alone: how a puppy behaves is not scored and is in no order.';

/** How a puppy is set up on the table: common practice, no source. Words for the help beside the scoring screen. */
export const setUpSteps: readonly string[] = [
  'Mat on the table, one hand on the puppy. Let it stand as it likes for ten seconds and look.',
  'Front feet first: steady the head, lift at the elbow and set both down straight under the withers, parallel.',
  'Then the rear: lift above the hock and set each foot so that the rear pastern is upright from the side and from behind.',
  'Head forward, tail as it hangs. Do not stretch or push the back into a line.',
  'Let go a little. What holds by itself is the puppy’s; what does not is yours.',
];
