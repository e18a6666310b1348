/** A place on or about the puppy, in millimetres: x forward, y up from the ground, z towards the puppy's right. */
export type Point3 = { readonly x: number; readonly y: number; readonly z: number };

/** A place in a picture; y runs downwards. */
export type Point = { readonly x: number; readonly y: number };

export type Camera = {
  /** Degrees by which the camera stands round towards the front of the puppy: 0 sees its right side square on, 90 its face, 180 its left side. */
  readonly azimuth: number;
  /** Horizontal millimetres from the camera to what it is aimed at. */
  readonly distance: number;
  /** Millimetres above the ground. */
  readonly height: number;
  /** What it is aimed at, usually the middle of the body. */
  readonly aim: Point3;
};

export type Projected = Point & {
  /** How much larger than at the aim a small thing looks here; 1 at the aim. */
  readonly scale: number;
  /** Millimetres from the camera, along the lens. */
  readonly depth: number;
};

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/**
 * The picture of a point by a pinhole camera. Units are millimetres at the aim, with the aim at (0, 0).
 * Worked example: from 1000 mm away, a point 80 mm nearer than the aim has scale 1000 / 920 = 1.087.
 */
export function project(point: Point3, camera: Camera): Projected {
  const { aim, distance, height } = camera;
  const turn = radians(camera.azimuth);
  const [x, y, z] = [point.x - aim.x, point.y - aim.y, point.z - aim.z];
  // In the camera's own directions: to the right of the picture, and towards the camera.
  const right = x * Math.cos(turn) - z * Math.sin(turn);
  const towards = x * Math.sin(turn) + z * Math.cos(turn);
  const pitch = Math.atan2(height - aim.y, distance);
  const up = y * Math.cos(pitch) - towards * Math.sin(pitch);
  const nearer = towards * Math.cos(pitch) + y * Math.sin(pitch);
  const away = Math.hypot(distance, height - aim.y);
  const depth = away - nearer;
  const scale = away / depth;
  return { x: right * scale, y: -up * scale, scale, depth };
}
