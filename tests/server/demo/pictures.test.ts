import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { rasterise } from '#lib/photo/drawing/rasterise';
import { landmarksOfShape, usualShape } from '#lib/photo/drawing/puppyShape';
import { carefulPicture, measureRatio } from '#lib/photo/measureRatio';
import { readScenario } from '#server/demo/scenario';
import { demoDrawing, demoShapes, demoViews } from '#tests/support/demoPictures';

const folder = fileURLToPath(new URL('../../../fixtures/demo/pictures/', import.meta.url));
type Line = {
  readonly puppy: string;
  readonly view: string;
  readonly file: string;
  readonly width: number;
  readonly height: number;
  readonly hash: string;
};
const lines = JSON.parse(readFileSync(`${folder}pictures.json`, 'utf8')) as readonly Line[];

it('the demo has one picture of each of four views of every puppy of its litter, each what its index says', async () => {
  const names = readScenario('fixtures/demo/scenario.json').puppies.map((puppy) => puppy.name);
  expect(Object.keys(demoShapes).toSorted()).toEqual(names.toSorted());
  expect(lines.map(({ puppy, view }) => `${puppy} ${view}`)).toEqual(
    Object.keys(demoShapes).flatMap((name) => demoViews.map((view) => `${name} ${view}`)),
  );
  expect(readdirSync(folder).length).toBe(lines.length + 1);
  for (const { file, hash, width, height } of lines) {
    const bytes = readFileSync(`${folder}${file}`);
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(hash);
    expect(await sharp(bytes).metadata()).toMatchObject({ format: 'webp', width, height });
  }
});

it('a committed picture shows what the project draws today', async () => {
  const drawn = rasterise(demoDrawing('Fern', 'left-side'));
  const kept = await sharp(readFileSync(`${folder}fern-left-side.webp`))
    .removeAlpha()
    .raw()
    .toBuffer();
  expect(kept.byteLength).toBe(drawn.byteLength);
  const off = drawn.reduce((sum, value, at) => sum + Math.abs(value - (kept[at] ?? 0)), 0) / drawn.byteLength;
  expect(off).toBeLessThan(2);
});

it.each(Object.keys(demoShapes))(
  'ST4: the ratio measured on the drawn picture of %s is given with a range that holds what it was drawn from',
  (name) => {
    const { landmarks, width, height } = demoDrawing(name, 'left-side');
    const shape = { ...usualShape, ...demoShapes[name]?.shape };
    const marks = landmarksOfShape(shape);
    expect(marks.withers.y).toBeCloseTo(shape.height, 9);
    const measured = measureRatio({
      key: 'length-height',
      placing: landmarks,
      size: { width, height },
      sizeMillimetres: shape.height,
      setting: carefulPicture,
    });
    if ('undefined' in measured) throw new Error(measured.undefined);
    expect(measured.low).toBeLessThan(shape.lengthHeight);
    expect(measured.high).toBeGreaterThan(shape.lengthHeight);
  },
);
