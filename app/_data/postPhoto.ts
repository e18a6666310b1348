import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { protocolHeader, protocolVersion, serverMark } from '#lib/contract/wire';
import { hearVersion } from './otherVersion';
import { faultOf } from './photoAnswer';
import type { WaitingPhoto } from './photoStore';

/** Resolves only once the server itself has said that it has this picture, by its id and its hash. */
export type PostPhoto = (photo: WaitingPhoto, onShare: (share: number) => void) => Promise<void>;

/** Without a byte moved for so long, a sending is given up, however much of it is out: a large clip on a poor link may go on for long. */
const silentMs = 20_000;
/** The server writes a picture anew before it says that it has it, one after the other. */
const answerMs = 60_000;

/** Sends one picture, telling the share that is out. Rejects as tRPC does: a refusal's code under `data.code`, anything else when there was no answer. */
export const postPhoto: PostPhoto = (photo, onShare) =>
  new Promise((resolve, reject) => {
    const hash = hashOf(photo.bytes);
    const query = new URLSearchParams({
      evaluation: photo.evaluationId,
      puppy: photo.puppyId,
      view: photo.view,
      taken: String(photo.takenAt),
      fair: photo.fair ? 'yes' : 'no',
      hash,
    });
    // Not fetch: only this tells how much of a body has gone out.
    const request = new XMLHttpRequest();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const wait = (milliseconds: number) => {
      clearTimeout(timer);
      timer = setTimeout(() => request.abort(), milliseconds);
    };
    const noAnswer = () => {
      clearTimeout(timer);
      reject(new Error('no answer'));
    };
    request.open('POST', `/api/photo/${photo.id}?${query}`);
    request.setRequestHeader('Content-Type', photo.type === '' ? 'application/octet-stream' : photo.type);
    request.setRequestHeader(protocolHeader, String(protocolVersion));
    request.upload.onprogress = ({ loaded, total }) => {
      wait(silentMs);
      onShare(total === 0 ? 0 : loaded / total);
    };
    request.upload.onload = () => wait(answerMs);
    request.onprogress = () => wait(silentMs);
    request.onerror = noAnswer;
    request.onabort = noAnswer;
    request.onload = () => {
      clearTimeout(timer);
      const mark = request.getResponseHeader(serverMark.name);
      if (mark === serverMark.value) hearVersion(request.getResponseHeader(protocolHeader));
      const fault = faultOf({ status: request.status, mark, body: request.responseText }, { id: photo.id, hash });
      if (fault) reject(fault);
      else resolve();
    };
    wait(silentMs);
    request.send(photo.bytes);
  });

const hashes = new WeakMap<ArrayBuffer, string>();

/** Once for each picture, however often it is sent: a clip takes a good part of a second. Works on plain http. */
function hashOf(bytes: ArrayBuffer): string {
  const known = hashes.get(bytes) ?? bytesToHex(sha256(new Uint8Array(bytes)));
  hashes.set(bytes, known);
  return known;
}
