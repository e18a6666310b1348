import type { Landmark } from './placing';

export const ratioKeys = [
  'length-height',
  'breastbone-length-height',
  'leg-depth',
  'depth-height',
  'muzzle-skull',
] as const;
export type RatioKey = (typeof ratioKeys)[number];

type Segment = readonly [Landmark, Landmark];

type Ratio = {
  readonly name: string;
  /** The two straight distances: the ratio is the first divided by the second. */
  readonly over: Segment;
  readonly under: Segment;
  readonly overWords: string;
  readonly underWords: string;
  /** The distance whose true size sets the picture's scale, and what it is at about eight weeks unless told (common practice, no source). */
  readonly size: Segment;
  readonly sizeWords: string;
  readonly usualMillimetres: number;
  /** What a high and a low ratio look like, for a prompt. */
  readonly looks: { readonly high: string; readonly low: string };
};

/** One ratio is measured at a time, from the landmarks it needs and no others. */
export const ratios: Readonly<Record<RatioKey, Ratio>> = {
  'length-height': {
    name: 'Length to height, from the shoulder',
    over: ['shoulder', 'buttock'],
    under: ['withers', 'ground'],
    overWords: 'body length',
    underWords: 'height at the withers',
    size: ['withers', 'ground'],
    sizeWords: 'Height at the withers',
    usualMillimetres: 270,
    looks: { high: 'long', low: 'short in body' },
  },
  'breastbone-length-height': {
    name: 'Length to height, from the breastbone',
    over: ['breastbone', 'buttock'],
    under: ['withers', 'ground'],
    overWords: 'body length',
    underWords: 'height at the withers',
    size: ['withers', 'ground'],
    sizeWords: 'Height at the withers',
    usualMillimetres: 270,
    looks: { high: 'long', low: 'short in body' },
  },
  'leg-depth': {
    name: 'Leg to depth of chest',
    over: ['elbow', 'ground'],
    under: ['withers', 'brisket'],
    overWords: 'elbow to ground',
    underWords: 'depth of chest',
    size: ['withers', 'ground'],
    sizeWords: 'Height at the withers',
    usualMillimetres: 270,
    looks: { high: 'high on leg', low: 'low on leg' },
  },
  'depth-height': {
    name: 'Depth of chest to height',
    over: ['withers', 'brisket'],
    under: ['withers', 'ground'],
    overWords: 'depth of chest',
    underWords: 'height at the withers',
    size: ['withers', 'ground'],
    sizeWords: 'Height at the withers',
    usualMillimetres: 270,
    looks: { high: 'deep in chest', low: 'shallow in chest' },
  },
  'muzzle-skull': {
    name: 'Muzzle to skull',
    over: ['nose', 'stop'],
    under: ['stop', 'occiput'],
    overWords: 'muzzle',
    underWords: 'skull',
    size: ['nose', 'occiput'],
    sizeWords: 'Nose to back of the skull',
    usualMillimetres: 130,
    looks: { high: 'long in muzzle', low: 'short in muzzle' },
  },
};

/** The landmarks of a ratio, each once, in the order they are asked for. */
export function landmarksOf(key: RatioKey): readonly Landmark[] {
  const { over, under } = ratios[key];
  return [...new Set([...over, ...under])];
}
