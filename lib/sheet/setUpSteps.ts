/** How a puppy is set up on the table: common practice, no source. Words for the help beside the scoring screen. */
export const setUpSteps: readonly string[] = [
  'Mat on the table, one hand on the puppy. Let it stand as it likes for ten seconds and look.',
  'Front feet first: steady the head, lift at the elbow and set both down straight under the withers, parallel.',
  'Then the rear: lift above the hock and set each foot so that the rear pastern is upright from the side and from behind.',
  'Head forward, tail as it hangs. Do not stretch or push the back into a line.',
  'Let go a little. What holds by itself is the puppy’s; what does not is yours.',
];
