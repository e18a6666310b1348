import fc from 'fast-check';
import { expect, it } from 'vitest';
import { coats, landmarksOfShape, type PuppyShape, usualShape } from '#lib/photo/drawing/puppyShape';
import { type Drawing, type DrawnView, drawPuppy, framingOf, pathData } from '#lib/photo/drawing/drawPuppy';
import { hullOf } from '#lib/photo/drawing/ellipsoid';
import { rasterise } from '#lib/photo/drawing/rasterise';
import { measureRatio } from '#lib/photo/measureRatio';
import { ratioKeys, ratios } from '#lib/photo/ratio';

const square = { turn: 0, distance: 1e7, tooHigh: 0 };
const views: readonly DrawnView[] = ['right-side', 'left-side', 'front', 'rear', 'head-side', 'head-front'];

function drawn(shape: PuppyShape, view: DrawnView, taken = square): Drawing {
  return drawPuppy(shape, coats.sand, framingOf(shape, view, taken));
}

const shapes = fc.record({
  height: fc.double({ min: 180, max: 340, noNaN: true }),
  lengthHeight: fc.double({ min: 0.95, max: 1.4, noNaN: true }),
  leg: fc.double({ min: 0.4, max: 0.56, noNaN: true }),
  depth: fc.double({ min: 0.4, max: 0.56, noNaN: true }),
  muzzleSkull: fc.double({ min: 0.5, max: 1.1, noNaN: true }),
  head: fc.double({ min: 0.44, max: 0.58, noNaN: true }),
  width: fc.double({ min: 0.85, max: 1.15, noNaN: true }),
});

it('a drawing seen square from far away measures as what it was drawn from', () => {
  fc.assert(
    fc.property(shapes, (shape) => {
      const { landmarks, width, height } = drawn(shape, 'right-side');
      const marks = landmarksOfShape(shape);
      for (const key of ratioKeys) {
        const { over, under } = ratios[key];
        const apart = ([from, to]: typeof over) => Math.hypot(marks[from].x - marks[to].x, marks[from].y - marks[to].y);
        const setting = { landmarkError: 0, turn: 0, distance: 1e9, tooHigh: 0 };
        const measured = measureRatio({
          key,
          placing: landmarks,
          size: { width, height },
          sizeMillimetres: 100,
          setting,
        });
        if ('undefined' in measured) throw new Error(measured.undefined);
        expect(measured.placed).toBeCloseTo(apart(over) / apart(under), 3);
      }
      expect(
        Math.hypot(marks.shoulder.x - marks.buttock.x, marks.shoulder.y - marks.buttock.y) / shape.height,
      ).toBeCloseTo(shape.lengthHeight, 9);
      expect(
        Math.hypot(marks.nose.x - marks.stop.x, marks.nose.y - marks.stop.y) /
          Math.hypot(marks.stop.x - marks.occiput.x, marks.stop.y - marks.occiput.y),
      ).toBeCloseTo(shape.muzzleSkull, 9);
    }),
    { numRuns: 40 },
  );
});

it.each(views)('%s: the puppy stands inside its picture, and path data are plain numbers', (view) => {
  const drawing = drawn(usualShape, view, { turn: 6, distance: 1800, tooHigh: 120 });
  const [, , ...puppy] = drawing.pieces;
  const places = puppy.flatMap((piece) => piece.polygons.flat());
  expect(places.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))).toBe(true);
  if (!view.startsWith('head')) {
    expect(places.every(({ x, y }) => x > 0 && x < drawing.width && y > 0 && y < drawing.height)).toBe(true);
  }
  for (const piece of drawing.pieces) expect(pathData(piece)).toMatch(/^(M-?[\d.]+ -?[\d.]+(L-?[\d.]+ -?[\d.]+)+Z)+$/);
});

it('ST2: the same drawing gives the same pixels, and a landmark lies on the puppy or at its edge', () => {
  const drawing = drawn(usualShape, 'right-side');
  const pixels = rasterise(drawing);
  expect(Buffer.compare(pixels, rasterise(drawn(usualShape, 'right-side')))).toBe(0);
  const empty = rasterise({ ...drawing, pieces: drawing.pieces.slice(0, 2) });
  const covered = (x: number, y: number) => {
    const at = (Math.round(y) * drawing.width + Math.round(x)) * 3;
    return [0, 1, 2].some((channel) => pixels[at + channel] !== empty[at + channel]);
  };
  for (const [landmark, { x, y }] of Object.entries(drawing.landmarks)) {
    const reach = 22;
    const near = Array.from(
      { length: 81 },
      (_, index) => [((index % 9) - 4) * (reach / 4), (Math.floor(index / 9) - 4) * (reach / 4)] as const,
    );
    expect([landmark, near.some(([dx, dy]) => covered(x * drawing.width + dx, y * drawing.height + dy))]).toEqual([
      landmark,
      true,
    ]);
  }
});

it('a filled square covers exactly its own pixels, half of those its edge halves', () => {
  const polygon = [
    { x: 1, y: 1 },
    { x: 3.5, y: 1 },
    { x: 3.5, y: 3 },
    { x: 1, y: 3 },
  ];
  const { landmarks } = drawn(usualShape, 'right-side');
  const pixels = rasterise({
    width: 5,
    height: 4,
    landmarks,
    pieces: [{ polygons: [polygon], top: [200, 100, 50], bottom: [200, 100, 50] }],
  });
  const red = Array.from({ length: 20 }, (_, index) => pixels[index * 3]);
  expect(red).toEqual([0, 0, 0, 0, 0, 0, 200, 200, 100, 0, 0, 200, 200, 100, 0, 0, 0, 0, 0, 0]);
});

it('the hull of a square and points within it is the square', () => {
  const corners = [
    { x: 0, y: 0 },
    { x: 4, y: 0 },
    { x: 4, y: 4 },
    { x: 0, y: 4 },
  ];
  expect(hullOf([...corners, { x: 2, y: 2 }, { x: 1, y: 3 }, { x: 2, y: 0 }])).toEqual(corners);
});
