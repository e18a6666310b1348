import sharp from 'sharp';
import { DomainError } from '#lib/errors';
import { photoLimits } from '#lib/photo/photoLimits';

// Of all that the library can open, only these three: no vector graphics, no documents, no camera raw.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({ operation: ['VipsForeignLoadJpeg', 'VipsForeignLoadPng', 'VipsForeignLoadWebp'] });
// One picture at a time on one thread, and nothing kept: scoring goes first.
sharp.concurrency(1);
sharp.cache(false);

export type PressedImage = {
  readonly large: Buffer;
  readonly small: Buffer;
  readonly width: number;
  readonly height: number;
  /** At most 1 KB, as a data address. */
  readonly placeholder: string;
};

const reading = { limitInputPixels: photoLimits.pixels, failOn: 'error' } as const;

/**
 * A picture written anew, upright, without a word of what the camera put in it (place, time, device), at two sizes.
 * Throws picture-too-big or file-unreadable.
 */
export async function pressImage(bytes: Buffer): Promise<PressedImage> {
  try {
    const { data: large, info } = await sharp(bytes, reading)
      .autoOrient()
      .resize({ width: 1600, height: 1600, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 80, effort: 3 })
      .toBuffer({ resolveWithObject: true });
    const small = await sharp(large, reading).resize({ width: 320, height: 320, fit: 'inside' }).webp({ quality: 70 }).toBuffer();
    const tiny = await sharp(small, reading).resize({ width: 12, height: 12, fit: 'inside' }).webp({ quality: 40 }).toBuffer();
    return { large, small, width: info.width, height: info.height, placeholder: `data:image/webp;base64,${tiny.toString('base64')}` };
  } catch (error) {
    const tooBig = error instanceof Error && /pixel limit|too large|dimensions/i.test(error.message);
    throw new DomainError(tooBig ? 'picture-too-big' : 'file-unreadable');
  }
}
