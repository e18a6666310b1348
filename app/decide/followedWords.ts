import type { Decision } from '#lib/contract/decisionView';

/** Whether a pick was the panel's most probable puppy, and whether it was declared a preference. */
export function followedWords({ puppyId, followedPanel, preference }: Decision): string {
  if (puppyId === null) return 'Nobody takes this place.';
  const followed =
    followedPanel === null
      ? 'The panel named no puppy for this place.'
      : followedPanel
        ? 'The panel’s most probable puppy for this place.'
        : 'Not the panel’s most probable puppy for this place.';
  return preference ? `${followed} Declared a preference between puppies the scores do not tell apart.` : followed;
}
