import sharp from 'sharp';
import { coats, usualShape } from '#lib/photo/drawing/puppyShape';
import { type DrawnView, drawPuppy, framingOf } from '#lib/photo/drawing/drawPuppy';
import { rasterise } from '#lib/photo/drawing/rasterise';

const views: readonly DrawnView[] = ['left-side', 'right-side', 'front', 'rear', 'head-side', 'head-front'];
const dyes = [coats.sand, coats.fox, coats.oat] as const;

/** So many small pictures of drawn puppies, no two alike, as a phone would hold them. */
export async function drawnPictures(count: number, width = 480): Promise<readonly Buffer[]> {
  const made: Buffer[] = [];
  for (let index = 0; index < count; index += 1) {
    const shape = { ...usualShape, lengthHeight: 1.02 + (index % 10) * 0.015 };
    const framing = framingOf(shape, views[index % views.length] ?? 'left-side', {
      turn: (index % 7) - 3,
      distance: 2000,
      tooHigh: 60,
    });
    const { width: wide, height: high } = { width, height: Math.round((width * framing.height) / framing.width) };
    const pixels = rasterise(
      drawPuppy(shape, dyes[index % dyes.length] ?? coats.sand, { ...framing, width: wide, height: high }),
    );
    made.push(
      await sharp(Buffer.from(pixels), { raw: { width: wide, height: high, channels: 3 } })
        .jpeg()
        .toBuffer(),
    );
  }
  return made;
}
