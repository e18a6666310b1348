import type { Landmark } from './landmark';
import type { Point } from './pinhole';

/** Landmarks as one seat put them, in shares of the picture's width and height (0 to 1). */
export type Placing = Readonly<Partial<Record<Landmark, Point>>>;

export type PixelSize = { readonly width: number; readonly height: number };

/** The distance between two places of a picture in pixels. */
export function pixelsBetween(from: Point, to: Point, { width, height }: PixelSize): number {
  return Math.hypot((to.x - from.x) * width, (to.y - from.y) * height);
}
