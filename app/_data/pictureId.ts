import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, concatBytes, utf8ToBytes } from '@noble/hashes/utils.js';

/** An id made of the evaluation and the picture's own bytes: the same picture again has the same id (SC2). Works on plain http. */
export function pictureId(evaluationId: string, bytes: ArrayBuffer): string {
  return bytesToHex(sha256(concatBytes(utf8ToBytes(evaluationId), sha256(new Uint8Array(bytes))))).slice(0, 32);
}
