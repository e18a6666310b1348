import type { Framing } from './drawPuppy';
import { landmarksOfShape, type PuppyShape } from './puppyShape';

export type DrawnView = 'right-side' | 'left-side' | 'front' | 'rear' | 'head-side' | 'head-front';

const azimuths: Readonly<Record<DrawnView, number>> = { 'right-side': 0, 'left-side': 180, front: 90, rear: 270, 'head-side': 0, 'head-front': 90 };

export type Taken = {
  /** Degrees by which the body is turned from what was asked. */
  readonly turn: number;
  readonly distance: number;
  /** Millimetres above the middle of the body. */
  readonly tooHigh: number;
};

/** A camera for one view of a puppy, so that it fills about two thirds of a picture three wide and two high. */
export function framingOf(shape: PuppyShape, view: DrawnView, { turn, distance, tooHigh }: Taken): Framing {
  const head = view === 'head-side' || view === 'head-front';
  const { nose, occiput, stop } = landmarksOfShape(shape);
  const aim = head ? { x: view === 'head-front' ? nose.x : (nose.x + occiput.x) / 2 - shape.height * 0.05, y: stop.y - shape.height * 0.12, z: 0 } : { x: view === 'front' || view === 'rear' ? 0 : shape.height * 0.12, y: shape.height * 0.62, z: 0 };
  const across = shape.height * (head ? 1.35 : 2.3);
  return { camera: { azimuth: azimuths[view] + turn, distance, height: aim.y + tooHigh, aim }, width: 1500, height: 1000, across };
}
