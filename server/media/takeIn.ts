import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { DomainError } from '#lib/errors';
import { clipSeconds } from '#lib/photo/clipSeconds';
import { fileKind } from '#lib/photo/fileKind';
import { photoLimits } from '#lib/photo/photoLimits';
import { stripMp4 } from '#lib/photo/stripMp4';
import { stripWebm } from '#lib/photo/stripWebm';
import type { Media, Upload } from './intake';
import { pressImage } from './pressImage';
import { writePicture } from './writePicture';

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
  if (bytes.byteLength > photoLimits.pictureBytes) throw new DomainError('file-too-large', { bytes: photoLimits.pictureBytes });
  const { large, small, ...facts } = await pressImage(bytes);
  await writePicture(folder, file, large);
  await writePicture(folder, thumb, small);
  return { kind: 'picture', contentType: 'image/webp', ...facts };
}

async function clip(bytes: Buffer, { kind, upload }: { readonly kind: 'mp4' | 'webm'; readonly upload: Upload }): Promise<Omit<Media, 'hash'>> {
  const seconds = clipSeconds(bytes, kind);
  if (seconds !== null && seconds > photoLimits.clipSeconds + photoLimits.clipGrace) throw new DomainError('clip-too-long', { seconds: photoLimits.clipSeconds });
  if (kind === 'mp4') stripMp4(bytes);
  else stripWebm(bytes);
  await writePicture(upload.folder, upload.file, bytes);
  return { kind: 'clip', contentType: kind === 'mp4' ? 'video/mp4' : 'video/webm', width: 16, height: 9, placeholder: '' };
}
