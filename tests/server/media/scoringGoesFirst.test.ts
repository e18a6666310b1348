import sharp from 'sharp';
import { expect, it } from 'vitest';
import { pressImage } from '#server/media/takeIn';

/** A picture as a phone takes it: 12 megapixels, with the grain that keeps it from shrinking to nothing. */
async function phonePicture(): Promise<Buffer> {
  const grain = await sharp({
    create: {
      width: 504,
      height: 378,
      channels: 3,
      background: '#888',
      noise: { type: 'gaussian', mean: 120, sigma: 25 },
    },
  })
    .png()
    .toBuffer();
  return sharp(grain).resize({ width: 4032, height: 3024 }).jpeg({ quality: 85 }).toBuffer();
}

it('SC1: while a picture of 12 megapixels is written anew the server’s own loop goes on turning, so that a score need not wait for it', async () => {
  const bytes = await phonePicture();
  let pressing = true;
  const done = pressImage(bytes).finally(() => {
    pressing = false;
  });
  let turns = 0;
  while (pressing) {
    await new Promise((resolve) => setTimeout(resolve, 1));
    turns += 1;
  }
  expect(await done).toMatchObject({ width: 1600, height: 1200 });
  // Held by the picture it would not turn at all; a turn here waits at least a millisecond.
  expect(turns).toBeGreaterThan(20);
});
