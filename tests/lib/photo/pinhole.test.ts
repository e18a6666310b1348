import { expect, it } from 'vitest';
import { project, type Camera, type Point3 } from '#lib/photo/pinhole';

// The figures are worked out by hand from a pinhole camera: a puppy 30 cm long and 27 cm tall, withers 9 cm in front of its middle.
const far: Camera = { azimuth: 0, distance: 1e9, height: 0, aim: { x: 0, y: 0, z: 0 } };
const lengthOf = (camera: Camera, half = 150): number => {
  const ends = [project({ x: -half, y: 0, z: 0 }, camera), project({ x: half, y: 0, z: 0 }, camera)];
  return Math.hypot((ends[1]?.x ?? 0) - (ends[0]?.x ?? 0), (ends[1]?.y ?? 0) - (ends[0]?.y ?? 0));
};

it.each([
  [5, 0.4],
  [10, 1.5],
  [15, 3.4],
  [20, 6.0],
  [25, 9.4],
])('a body turned %d degrees away looks %d per cent shorter', (azimuth, percent) => {
  for (const turn of [azimuth, -azimuth])
    expect(100 * (1 - lengthOf({ ...far, azimuth: turn }) / 300)).toBeCloseTo(percent, 1);
});

it.each([
  [400, 25],
  [600, 15],
  [1000, 9],
  [2000, 4],
  [3000, 3],
])('from %d mm a head 80 mm nearer looks %d per cent larger', (distance, percent) => {
  const { scale } = project({ x: 0, y: 0, z: 80 }, { ...far, distance });
  expect(Math.round(100 * (scale - 1))).toBe(percent);
});

it.each([
  [1000, 20, -8.7],
  [1000, -20, -2.9],
  [500, 20, -10.9],
  [500, -20, 0.8],
])(
  'from %d mm a turn of %d degrees changes length to height by %d per cent: which end is nearer decides',
  (distance, azimuth, percent) => {
    // The camera stands round to the front when the front end is the nearer one.
    const camera = { ...far, distance, azimuth };
    const height = (x: number): number => project({ x, y: 0, z: 0 }, camera).scale;
    expect(100 * (lengthOf(camera) / 300 / height(90) - 1)).toBeCloseTo(percent, 1);
  },
);

it.each([
  [200, 2],
  [500, 11],
])('a camera %d mm too high at one metre makes the height look about %d per cent shorter', (height, percent) => {
  const camera = { ...far, distance: 1e6, height: height * 1000 };
  const seen = project({ x: 0, y: 135, z: 0 }, camera).y - project({ x: 0, y: -135, z: 0 }, camera).y;
  expect(Math.round(100 * (1 + seen / 270))).toBe(percent);
});

it('a picture of the left side is the mirror of the right, and a point on the lens axis stays in the middle', () => {
  const point: Point3 = { x: 100, y: 50, z: 0 };
  const right = project(point, { ...far, distance: 2000 });
  const left = project(point, { ...far, distance: 2000, azimuth: 180 });
  expect([left.x, left.y]).toEqual([expect.closeTo(-right.x, 9), expect.closeTo(right.y, 9)]);
  expect(project({ x: 0, y: 0, z: 500 }, { ...far, distance: 2000 })).toMatchObject({
    scale: 2000 / 1500,
    depth: 1500,
  });
});
