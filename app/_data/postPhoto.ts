import type { WaitingPhoto } from './photoStore';

export type PostPhoto = (photo: WaitingPhoto, onShare: (share: number) => void) => Promise<void>;

const patienceMs = 120_000;

/** Sends one picture, telling the share that is out. Rejects as tRPC does: the server's code under `data.code`, anything else when there was no answer. */
export const postPhoto: PostPhoto = (photo, onShare) =>
  new Promise((resolve, reject) => {
    const query = new URLSearchParams({
      evaluation: photo.evaluationId,
      puppy: photo.puppyId,
      view: photo.view,
      taken: String(photo.takenAt),
      fair: photo.fair ? 'yes' : 'no',
    });
    // Not fetch: only this tells how much of a body has gone out.
    const request = new XMLHttpRequest();
    request.open('POST', `/api/photo/${photo.id}?${query}`);
    request.timeout = patienceMs;
    request.setRequestHeader('Content-Type', photo.type === '' ? 'application/octet-stream' : photo.type);
    request.upload.onprogress = ({ loaded, total }) => onShare(total === 0 ? 0 : loaded / total);
    const noAnswer = () => reject(new Error('no answer'));
    request.onerror = noAnswer;
    request.ontimeout = noAnswer;
    request.onabort = noAnswer;
    request.onload = () => (request.status === 200 ? resolve() : reject(refusalOf(request.responseText)));
    request.send(photo.bytes);
  });

class PhotoRefused extends Error {
  readonly data: unknown;

  constructor(data: unknown) {
    super('refused');
    this.data = data;
  }
}

function refusalOf(body: string): Error {
  try {
    const answer: unknown = JSON.parse(body);
    if (typeof answer !== 'object' || answer === null || !('error' in answer)) return new Error('no answer');
    const { error } = answer;
    return typeof error === 'object' && error !== null && 'data' in error ? new PhotoRefused(error.data) : new Error('no answer');
  } catch {
    return new Error('no answer');
  }
}
