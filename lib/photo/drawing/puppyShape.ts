import type { Point3 } from '../pinhole';
import type { Landmark } from '../placing';

/** What a drawn puppy is made from; shares are of its height at the withers. */
export type PuppyShape = {
  /** Millimetres from ground to withers. */
  readonly height: number;
  /** Point of shoulder to point of buttock over height. */
  readonly lengthHeight: number;
  /** Elbow to ground, and withers to lowest point of the chest, as shares of the height. */
  readonly leg: number;
  readonly depth: number;
  /** Nose to stop over stop to back of skull, and the two together as a share of the height. */
  readonly muzzleSkull: number;
  readonly head: number;
  /** 1 for a body of usual width. */
  readonly width: number;
};

export const usualShape: PuppyShape = {
  height: 270,
  lengthHeight: 1.1,
  leg: 0.48,
  depth: 0.48,
  muzzleSkull: 0.8,
  head: 0.52,
  width: 1,
};

/** Slopes of skull and muzzle below the level, in radians. */
const skullSlope = 0.12;
const muzzleSlope = 0.42;

/**
 * Where the landmarks of a puppy in its set-up stance lie, on its right side, in millimetres about the middle of its ground.
 * These are the truth that a measured drawing is held against.
 */
export function landmarksOfShape({
  height,
  lengthHeight,
  leg,
  depth,
  muzzleSkull,
  head,
  width,
}: PuppyShape): Readonly<Record<Landmark, Point3>> {
  const rise = 0.2;
  const half = Math.sqrt(lengthHeight ** 2 - rise ** 2) / 2;
  const withersX = 0.56 * half;
  const skull = head / (1 + muzzleSkull);
  const muzzle = head - skull;
  const occiput = { x: half + 0.03, y: 1.25 };
  const stop = { x: occiput.x + skull * Math.cos(skullSlope), y: occiput.y - skull * Math.sin(skullSlope) };
  const nose = { x: stop.x + muzzle * Math.cos(muzzleSlope), y: stop.y - muzzle * Math.sin(muzzleSlope) };
  const at = (x: number, y: number, z = 0): Point3 => ({ x: x * height, y: y * height, z: z * width * height });
  return {
    shoulder: at(half, 0.62, 0.1),
    breastbone: at(half + 0.02, 0.6),
    buttock: at(-half, 0.82, 0.07),
    withers: at(withersX, 1),
    ground: at(withersX, 0, 0.11),
    elbow: at(withersX - 0.01, leg, 0.13),
    brisket: at(withersX - 0.03, 1 - depth, 0.05),
    occiput: at(occiput.x, occiput.y),
    stop: at(stop.x, stop.y),
    nose: at(nose.x, nose.y),
  };
}

/** Red, green, blue, 0 to 255. */
export type Colour = readonly [number, number, number];

export type Coat = {
  readonly light: Colour;
  readonly dark: Colour;
  readonly far: Colour;
  readonly mask: Colour;
  readonly ear: Colour;
  readonly chest: Colour | null;
};

/** Coats for drawn puppies: soft, and none like a collar's colour. */
export const coats = {
  sand: {
    light: [222, 184, 132],
    dark: [196, 150, 98],
    far: [166, 126, 84],
    mask: [74, 58, 48],
    ear: [120, 84, 56],
    chest: [236, 212, 176],
  },
  fox: {
    light: [206, 148, 94],
    dark: [178, 118, 70],
    far: [146, 98, 62],
    mask: [66, 50, 42],
    ear: [104, 68, 46],
    chest: [228, 190, 146],
  },
  oat: {
    light: [236, 212, 172],
    dark: [212, 180, 134],
    far: [182, 152, 112],
    mask: [92, 74, 62],
    ear: [150, 114, 80],
    chest: [246, 232, 206],
  },
} as const satisfies Readonly<Record<string, Coat>>;
