import type { Point } from './pinhole';

/** Landmarks as one seat put them, in shares of the picture's width and height (0 to 1). */
export type Placing = Readonly<Partial<Record<Landmark, Point>>>;

export type PixelSize = { readonly width: number; readonly height: number };

/** The distance between two places of a picture in pixels. */
export function pixelsBetween(from: Point, to: Point, { width, height }: PixelSize): number {
  return Math.hypot((to.x - from.x) * width, (to.y - from.y) * height);
}

/** Places on a puppy that a person can find on a side photograph. */
export const landmarkKeys = [
  'shoulder',
  'breastbone',
  'buttock',
  'withers',
  'ground',
  'elbow',
  'brisket',
  'nose',
  'stop',
  'occiput',
] as const;
export type Landmark = (typeof landmarkKeys)[number];

type LandmarkWords = { readonly name: string; readonly where: string };

/** Where to put it, in words a hand can follow. General anatomy; no source. */
export const landmarkWords: Readonly<Record<Landmark, LandmarkWords>> = {
  shoulder: {
    name: 'point of the shoulder',
    where: 'The bony knob at the front of the body where the shoulder blade meets the upper arm.',
  },
  breastbone: { name: 'front of the breastbone', where: 'The foremost point of the chest, between the two shoulders.' },
  buttock: {
    name: 'point of the buttock',
    where: 'The rearmost point of the pelvis, just below the root of the tail.',
  },
  withers: { name: 'withers', where: 'The highest point of the back, above the front leg, where neck and back meet.' },
  ground: { name: 'ground below the withers', where: 'Where the sole of the nearer front foot meets the table.' },
  elbow: { name: 'elbow', where: 'The tip of the elbow of the nearer front leg, close to the chest.' },
  brisket: {
    name: 'lowest point of the chest',
    where: 'The lower edge of the chest straight below the withers, just behind the elbow.',
  },
  nose: { name: 'tip of the nose', where: 'The foremost point of the nose.' },
  stop: {
    name: 'stop',
    where:
      'The deepest point of the step between forehead and bridge of the nose, level with the inner corner of the eye.',
  },
  occiput: { name: 'back of the skull', where: 'The bony point at the back of the head, between the ears.' },
};

/** One seat's readings of one ratio, each from a placing of its own. */
type SeatReadings = { readonly seat: string; readonly values: readonly number[] };

export type PlacingAgreement = {
  readonly seats: number;
  /** Middle of the seats' own middles. */
  readonly median: number;
  /** Points (hundredths of the ratio) between the highest and the lowest seat; null with fewer than two seats. */
  readonly between: number | null;
  /** Largest distance in points between two readings of one seat; null when nobody placed twice. */
  readonly within: number | null;
};

/**
 * How far repeated placings lie apart, in points: hundredths of the ratio, so 1.04 and 1.08 are 4 points apart.
 * Null when there is no reading at all (ST1).
 */
export function placingAgreement(readings: readonly SeatReadings[]): PlacingAgreement | null {
  const given = readings.filter(({ values }) => values.length > 0);
  if (given.length === 0) return null;
  const middles = given.map(({ values }) => medianOf(values));
  const repeats = given.filter(({ values }) => values.length > 1).map(({ values }) => rangeOf(values));
  return {
    seats: given.length,
    median: medianOf(middles),
    between: given.length < 2 ? null : 100 * rangeOf(middles),
    within: repeats.length === 0 ? null : 100 * Math.max(...repeats),
  };
}

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2;
}

const rangeOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
