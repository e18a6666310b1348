import type { Point } from './pinhole';
import type { PixelSize } from './placing';

/** What part of a picture is shown: how many times enlarged, and which place (in shares) stands in the middle. */
export type StageView = { readonly zoom: number; readonly x: number; readonly y: number };

export const wholePicture: StageView = { zoom: 1, x: 0.5, y: 0.5 };

export const mostZoom = 8;

/** Enlarges by a factor so that the place `at` stays where it is on the screen. */
export function zoomBy(view: StageView, factor: number, at: Point = { x: view.x, y: view.y }): StageView {
  const zoom = Math.min(mostZoom, Math.max(1, view.zoom * factor));
  const kept = view.zoom / zoom;
  return within({ zoom, x: at.x + (view.x - at.x) * kept, y: at.y + (view.y - at.y) * kept });
}

/** Moves by shares of what is shown: 0.5 is half of the visible width or height. */
export function panBy(view: StageView, { x, y }: Point): StageView {
  return within({ zoom: view.zoom, x: view.x + x / view.zoom, y: view.y + y / view.zoom });
}

/** Never beyond the picture's edge. */
function within({ zoom, x, y }: StageView): StageView {
  const margin = 0.5 / zoom;
  const held = (value: number) => Math.min(1 - margin, Math.max(margin, value));
  return { zoom, x: held(x), y: held(y) };
}

/** The part shown, in the picture's pixels: left, top, width, height. */
export function viewBoxOf(
  { zoom, x, y }: StageView,
  { width, height }: PixelSize,
): readonly [left: number, top: number, width: number, height: number] {
  return [(x - 0.5 / zoom) * width, (y - 0.5 / zoom) * height, width / zoom, height / zoom];
}
