import { invariant } from '../invariant';
import { type Check, type CheckKey, checkKeys, notExamined } from './check';

/** Found by hand: males, navel and groin, tail, dewclaws. */
const bodyChecks: readonly Check[] = [
  {
    key: 'testicles',
    name: 'Testicles',
    handsOnly: true,
    holdsKeep: true,
    onlyIn: 'dog',
    answers: [
      { key: 'both-felt', words: 'both felt', outcome: 'normal' },
      { key: 'one-felt', words: 'one felt', outcome: 'watch' },
      { key: 'none-felt', words: 'none felt', outcome: 'watch' },
      notExamined,
      { key: 'does-not-apply', words: 'does not apply (bitch)', outcome: 'does-not-apply' },
    ],
    help: 'Warm hands, puppy relaxed. Say what you feel today; they can slip back up. Feel again at 12 and at 16 weeks.',
    caution: 'Only a veterinary surgeon can say that one will not come down.',
  },
  {
    key: 'navel-and-groin',
    name: 'Navel and groin',
    handsOnly: true,
    holdsKeep: true,
    answers: [
      { key: 'flat', words: 'flat and closed', outcome: 'normal' },
      { key: 'soft-swelling', words: 'small soft swelling', outcome: 'watch' },
      { key: 'firm-swelling', words: 'large, firm or sore swelling', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Run a finger over the navel and both sides of the groin while the puppy stands. Do not push on a swelling.',
    caution: 'Any swelling is for a veterinary surgeon to look at; a firm or sore one the same day.',
  },
  {
    key: 'tail',
    name: 'Tail',
    handsOnly: true,
    holdsKeep: false,
    answers: [
      { key: 'straight', words: 'bones even to the tip', outcome: 'normal' },
      { key: 'as-asked', words: 'naturally short or curled, as the breed asks', outcome: 'normal' },
      { key: 'unsure', words: 'something felt, not sure', outcome: 'watch' },
      { key: 'kink', words: 'kink felt', outcome: 'not-normal' },
      { key: 'length', words: 'length the breed does not allow', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Slide finger and thumb along each bone to the tip. A kink does not grow out.',
    caution: 'A sore tail, or one the puppy cannot move, is for a veterinary surgeon to look at.',
  },
  {
    key: 'dewclaws',
    name: 'Dewclaws',
    handsOnly: true,
    holdsKeep: false,
    answers: [
      { key: 'as-asked', words: 'as the breed asks', outcome: 'normal' },
      { key: 'missing', words: 'fewer than the breed asks', outcome: 'watch' },
      { key: 'extra', words: 'more than the breed asks', outcome: 'watch' },
      { key: 'hurt', words: 'torn, loose or grown in', outcome: 'not-normal' },
      notExamined,
      { key: 'does-not-apply', words: 'does not apply (no rule in the breed)', outcome: 'does-not-apply' },
    ],
    help: 'Feel the inside of all four legs; coat hides them. Some breeds ask for them behind, some forbid them.',
    caution: 'Whether they may be removed depends on local law; ask a veterinary surgeon.',
  },
];

/** With the lips lifted and the mouth opened. */
const mouthChecks: readonly Check[] = [
  {
    key: 'bite',
    name: 'Bite',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'scissor', words: 'scissor', outcome: 'normal' },
      { key: 'as-asked', words: 'other, as the breed asks', outcome: 'normal', gap: true },
      { key: 'level', words: 'level (edge to edge)', outcome: 'watch', gap: true },
      { key: 'overshot', words: 'overshot (upper jaw ahead)', outcome: 'watch', gap: true },
      { key: 'undershot', words: 'undershot (lower jaw ahead)', outcome: 'not-normal', gap: true },
      { key: 'wry', words: 'wry (jaws not in line)', outcome: 'not-normal', gap: true },
      notExamined,
    ],
    help:
      'Lips up, mouth closed; front, then both sides. Most breeds ask for a scissor bite. A level one sometimes comes right as the head grows, ' +
      'an undershot one rarely does. Where the breed asks for another bite, say so.',
    caution: 'Teeth that touch the palate or a sore mouth are for a veterinary surgeon now.',
  },
  {
    key: 'palate',
    name: 'Palate',
    handsOnly: true,
    holdsKeep: true,
    answers: [
      { key: 'whole', words: 'whole as far as seen', outcome: 'normal' },
      { key: 'unsure', words: 'part not seen, or marked by a tooth', outcome: 'watch' },
      { key: 'gap', words: 'gap seen', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Open the mouth gently in good light and look along the roof to the back. Milk from the nose is a reason to look again.',
    caution: 'The back of the palate is easily missed; a veterinary surgeon has to see it.',
  },
];

/** Seen and heard: coat rule, breathing, eyes, skin, gait. */
const conditionChecks: readonly Check[] = [
  {
    key: 'colour-and-coat',
    name: 'Colour and coat',
    handsOnly: false,
    holdsKeep: false,
    answers: [
      { key: 'as-asked', words: 'as the breed allows', outcome: 'normal' },
      { key: 'may-change', words: 'may still change', outcome: 'watch' },
      { key: 'not-allowed', words: 'not allowed in the breed', outcome: 'not-normal' },
      notExamined,
      { key: 'does-not-apply', words: 'does not apply (no rule in the breed)', outcome: 'does-not-apply' },
    ],
    help: 'Only what the breed rules out: a colour, a marking, a coat length, missing pigment. Noses and eye rims may still fill in.',
    caution: 'Some colours go with poor hearing or sight; a veterinary surgeon can test for it.',
  },
  {
    key: 'breathing',
    name: 'Breathing',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'quiet', words: 'quiet, mouth closed, nostrils open', outcome: 'normal' },
      { key: 'noisy-after-play', words: 'noisy after play, then settles', outcome: 'watch' },
      { key: 'noisy-at-rest', words: 'noisy or hard work at rest, or nostrils narrow', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Listen at rest, and again after a minute of play. A short face is no excuse for noise.',
    caution: 'Noise at rest or hard breathing is for a veterinary surgeon now. No good point makes up for it.',
  },
  {
    key: 'eyes',
    name: 'Eyes',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'clear', words: 'clear and open, lids close', outcome: 'normal' },
      { key: 'wet', words: 'wet, a little red, or lids loose', outcome: 'watch' },
      { key: 'sore', words: 'cloudy, held shut, or lid rubs the eye', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Look at both in even light without touching. Their colour is no part of this check.',
    caution: 'Hereditary eye disease cannot be seen on a table; a veterinary surgeon has the means to look for it.',
  },
  {
    key: 'skin',
    name: 'Skin',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'clean', words: 'clean and whole', outcome: 'normal' },
      { key: 'dry-or-spotted', words: 'dry, spotted or scratched', outcome: 'watch' },
      { key: 'sore', words: 'sore, bare patches or damp folds', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'Part the coat on belly, armpits, ears and any folds.',
    caution: 'Bare or itching patches may spread to people and dogs; wash hands and ask a veterinary surgeon.',
  },
  {
    key: 'gait',
    name: 'Gait',
    handsOnly: false,
    holdsKeep: true,
    answers: [
      { key: 'even', words: 'even, all four legs used', outcome: 'normal' },
      { key: 'unsteady', words: 'unsteady or very loose', outcome: 'watch' },
      { key: 'lame', words: 'lame, hopping or dragging a leg', outcome: 'not-normal' },
      notExamined,
    ],
    help: 'On a floor that grips, let it follow someone. Looseness is common at this age; an uneven step is not.',
    caution: 'Stop if a leg is spared or hurts, and ask a veterinary surgeon.',
  },
];

const all = [...bodyChecks, ...mouthChecks, ...conditionChecks];

function find(key: CheckKey): Check {
  const check = all.find((candidate) => candidate.key === key);
  invariant(check, `no check ${key}`);
  return check;
}

/** The eleven checks (SA1), in their fixed order. */
export const checkCatalogue: readonly Check[] = checkKeys.map(find);

/** The check of this key, or undefined when there is none. */
export function checkByKey(key: string): Check | undefined {
  return checkCatalogue.find((check) => check.key === key);
}
