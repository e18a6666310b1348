import { DomainError } from '#lib/errors';
import { clipSeconds } from '#lib/photo/clipSeconds';
import { fileKind } from '#lib/photo/fileKind';
import { photoLimits } from '#lib/photo/photoLimits';
import type { Press } from './press';
import type { Body } from './readBody';

export type ReadMedia = {
  readonly kind: 'picture' | 'clip';
  readonly contentType: 'image/webp' | 'video/mp4' | 'video/webm';
  readonly large: Buffer;
  readonly thumb: Buffer | null;
  readonly width: number;
  readonly height: number;
  readonly placeholder: string;
  /** SHA-256 of the bytes as received. */
  readonly hash: string;
};

/** What was sent, told by its content whatever it is called: a picture written anew, a clip as it is. Throws a file-…, picture-… or clip-… refusal. */
export async function readMedia({ bytes, hash }: Body, press: Press): Promise<ReadMedia> {
  const kind = fileKind(bytes);
  switch (kind) {
    case 'jpeg':
    case 'png':
    case 'webp':
      if (bytes.byteLength > photoLimits.pictureBytes) throw new DomainError('file-too-large', { bytes: photoLimits.pictureBytes });
      return { kind: 'picture', contentType: 'image/webp', hash, ...(await press(bytes)) };
    case 'mp4':
    case 'webm': {
      const seconds = clipSeconds(bytes, kind);
      if (seconds !== null && seconds > photoLimits.clipSeconds + photoLimits.clipGrace) throw new DomainError('clip-too-long', { seconds: photoLimits.clipSeconds });
      return { kind: 'clip', contentType: kind === 'mp4' ? 'video/mp4' : 'video/webm', hash, large: bytes, thumb: null, width: 16, height: 9, placeholder: '' };
    }
    case 'heic':
      throw new DomainError('file-heic');
    case 'mov':
    case 'markup':
    case 'other':
      throw new DomainError('file-kind');
  }
}
