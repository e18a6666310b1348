import type { Coat } from './drawPuppy';

/** Coats for drawn puppies: soft, and none like a collar's colour. */
export const coats = {
  sand: { light: [222, 184, 132], dark: [196, 150, 98], far: [166, 126, 84], mask: [74, 58, 48], ear: [120, 84, 56], chest: [236, 212, 176] },
  fox: { light: [206, 148, 94], dark: [178, 118, 70], far: [146, 98, 62], mask: [66, 50, 42], ear: [104, 68, 46], chest: [228, 190, 146] },
  oat: { light: [236, 212, 172], dark: [212, 180, 134], far: [182, 152, 112], mask: [92, 74, 62], ear: [150, 114, 80], chest: [246, 232, 206] },
} as const satisfies Readonly<Record<string, Coat>>;
