import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { writePicture } from '#db/picturesFolder';
import { DomainError } from '#lib/errors';
import { clipSeconds, fileKind, type Media, photoLimits } from '#lib/photo/photoFile';
import { stripMp4 } from '#lib/photo/stripMp4';
import { stripWebm } from '#lib/photo/stripWebm';
import type { Upload } from './intake';

/** Makes files of an upload, told by its content whatever it is called: a picture is written anew, a clip keeps nothing but pictures and sound (see Intake). */
export async function takeIn(upload: Upload): Promise<Media> {
  const bytes = await readFile(upload.path);
  const hash = createHash('sha256').update(bytes).digest('hex');
  const kind = fileKind(bytes);
  switch (kind) {
    case 'jpeg':
    case 'png':
    case 'webp':
      return { ...(await picture(bytes, upload)), hash };
    case 'mp4':
    case 'webm':
      return { ...(await clip(bytes, { kind, upload })), hash };
    case 'heic':
      throw new DomainError('file-heic');
    case 'mov':
    case 'markup':
    case 'other':
      throw new DomainError('file-kind');
  }
}

async function picture(bytes: Buffer, { folder, file, thumb }: Upload): Promise<Omit<Media, 'hash'>> {
  if (bytes.byteLength > photoLimits.pictureBytes)
    throw new DomainError('file-too-large', { bytes: photoLimits.pictureBytes });
  const { large, small, ...facts } = await pressImage(bytes);
  await writePicture(folder, file, large);
  await writePicture(folder, thumb, small);
  return { kind: 'picture', contentType: 'image/webp', ...facts };
}

async function clip(
  bytes: Buffer,
  { kind, upload }: { readonly kind: 'mp4' | 'webm'; readonly upload: Upload },
): Promise<Omit<Media, 'hash'>> {
  const seconds = clipSeconds(bytes, kind);
  if (seconds !== null && seconds > photoLimits.clipSeconds + photoLimits.clipGrace)
    throw new DomainError('clip-too-long', { seconds: photoLimits.clipSeconds });
  if (kind === 'mp4') stripMp4(bytes);
  else stripWebm(bytes);
  await writePicture(upload.folder, upload.file, bytes);
  return {
    kind: 'clip',
    contentType: kind === 'mp4' ? 'video/mp4' : 'video/webm',
    width: 16,
    height: 9,
    placeholder: '',
  };
}

// Of all that the library can open, only these three: no vector graphics, no documents, no camera raw.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({ operation: ['VipsForeignLoadJpeg', 'VipsForeignLoadPng', 'VipsForeignLoadWebp'] });
// One picture at a time on one thread, and nothing kept: scoring goes first.
sharp.concurrency(1);
sharp.cache(false);

type PressedImage = {
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
    const small = await sharp(large, reading)
      .resize({ width: 320, height: 320, fit: 'inside' })
      .webp({ quality: 70 })
      .toBuffer();
    const tiny = await sharp(small, reading)
      .resize({ width: 12, height: 12, fit: 'inside' })
      .webp({ quality: 40 })
      .toBuffer();
    return {
      large,
      small,
      width: info.width,
      height: info.height,
      placeholder: `data:image/webp;base64,${tiny.toString('base64')}`,
    };
  } catch (error) {
    const tooBig = error instanceof Error && /pixel limit|too large|dimensions/i.test(error.message);
    throw new DomainError(tooBig ? 'picture-too-big' : 'file-unreadable');
  }
}
