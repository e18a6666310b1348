import fc from 'fast-check';
import { expect, it } from 'vitest';
import { mostZoom, panBy, viewBoxOf, wholePicture, zoomBy, type StageView } from '#lib/photo/stageView';

const share = fc.double({ min: 0, max: 1, noNaN: true });
const steps = fc.array(
  fc.oneof(
    fc.record({ factor: fc.double({ min: 0.3, max: 3, noNaN: true }), x: share, y: share }),
    fc.record({ x: fc.double({ min: -1, max: 1, noNaN: true }), y: share }),
  ),
  { maxLength: 20 },
);

it('whatever is zoomed and moved, what is shown lies within the picture', () => {
  fc.assert(
    fc.property(steps, (list) => {
      const end = list.reduce<StageView>(
        (view, step) => ('factor' in step ? zoomBy(view, step.factor, step) : panBy(view, step)),
        wholePicture,
      );
      const [left, top, width, height] = viewBoxOf(end, { width: 1600, height: 1200 });
      expect(end.zoom).toBeGreaterThanOrEqual(1);
      expect(end.zoom).toBeLessThanOrEqual(mostZoom);
      for (const [from, size, whole] of [
        [left, width, 1600],
        [top, height, 1200],
      ] as const) {
        expect(from).toBeGreaterThanOrEqual(-1e-9);
        expect(from + size).toBeLessThanOrEqual(whole + 1e-9);
      }
    }),
  );
});

it('a place in the middle of the picture that is zoomed at stays where it is', () => {
  const before = zoomBy(wholePicture, 2);
  const at = { x: 0.6, y: 0.45 };
  const after = zoomBy(before, 1.5, at);
  const screen = (view: StageView) => [(at.x - view.x) * view.zoom, (at.y - view.y) * view.zoom];
  expect(screen(after)[0]).toBeCloseTo(screen(before)[0] ?? 0, 9);
  expect(screen(after)[1]).toBeCloseTo(screen(before)[1] ?? 0, 9);
  expect(zoomBy(after, 0.01)).toEqual(wholePicture);
});
