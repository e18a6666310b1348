import type { View } from '#lib/sheet/criterion';

/** Where one stands, or what one uses. */
export const viewWords: Readonly<Record<View, string>> = {
  side: 'From the side',
  front: 'From in front',
  rear: 'From behind',
  above: 'From above',
  hands: 'By hand',
  head: 'Head',
};
