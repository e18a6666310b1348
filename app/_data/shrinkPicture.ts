import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, concatBytes, utf8ToBytes } from '@noble/hashes/utils.js';

const longest = 2048;
const quality = 0.8;

type Prepared = { readonly bytes: ArrayBuffer; readonly type: string };

/**
 * A picture made small enough for the way to the server, upright, without what the camera wrote into it. A clip, and a
 * picture that this browser cannot open, go as they are: the server says what it makes of them.
 */
export async function shrinkPicture(file: File): Promise<Prepared> {
  const asItIs = async () => ({ bytes: await file.arrayBuffer(), type: file.type });
  if (file.type.startsWith('video/')) return asItIs();
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(bitmap.width * scale));
    canvas.height = Math.max(1, Math.round(bitmap.height * scale));
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
    return blob ? { bytes: await blob.arrayBuffer(), type: 'image/jpeg' } : await asItIs();
  } catch {
    return asItIs();
  }
}

/** An id made of the evaluation and the picture's own bytes: the same picture again has the same id (SC2). Works on plain http. */
export function pictureId(evaluationId: string, bytes: ArrayBuffer): string {
  return bytesToHex(sha256(concatBytes(utf8ToBytes(evaluationId), sha256(new Uint8Array(bytes))))).slice(0, 32);
}
