/** What the quiet-table card says unless the owner changes it: the voice gives more away than the screen. */
export const quietTable = [
  'Until everyone has locked: say nothing about quality.',
  'No sighs, no “this one”, no favourites, nothing about parents or who takes whom.',
  'Say only which puppy is up, and what it needs.',
  'On the call: mute, unless the owner asks you something.',
].join('\n');
