import { rm } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';
import { picturesFolder, removePicture } from '#db/picturesFolder';
import { idSchema } from '#lib/contract/fields';
import { type PhotoKept, photoTagSchema } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import { photoLimits } from '#lib/photo/photoFile';
import { accessTo } from '../api/access';
import { type Context, refuseOtherVersion } from '../api/context';
import { checkNewPhoto, keptAlready, type NewPhoto, storePhoto } from '../commands/photos';
import type { Asker } from '../write/writeEvaluation';
import type { Intake } from './intake';
import { answerJson, answerRefused, receiveUpload } from './plainRoute';
import { servePhoto } from './servePhoto';

type PhotoContext = Pick<Context, 'runtime' | 'device' | 'pageVersion' | 'limits' | 'requestId' | 'log'>;

type PhotoRoute = (request: IncomingMessage, response: ServerResponse, context: () => PhotoContext) => Promise<void>;

/** On their way in at once, and of them waiting to be written anew; whoever comes later is asked to try again, which a device does by itself. */
const mostUploads = 12;
const mostWaiting = 6;

/**
 * Pictures go in and out beside tRPC, as plain bytes: `POST /api/photo/ID?evaluation=…` and `GET /api/photo/ID/large` or
 * `/small`. The address names the picture by its random id, never a puppy. Answers nothing to strangers.
 */
export function createPhotoRoute(intakeOfOne: Intake): PhotoRoute {
  const room = { uploads: 0 };
  const turnstile = createTurnstile(mostWaiting);
  const intake: Intake = (upload) => turnstile(() => intakeOfOne(upload));
  return async (request, response, contextOf) => {
    let context: PhotoContext | null = null;
    try {
      context = contextOf();
      await answer({ request, response, context }, { room, intake });
    } catch (error) {
      answerRefused({ request, response, context }, error);
    }
  };
}

type Exchange<C> = { readonly request: IncomingMessage; readonly response: ServerResponse; readonly context: C };
type Place = { readonly room: { uploads: number }; readonly intake: Intake };

async function answer(exchange: Exchange<PhotoContext>, place: Place): Promise<void> {
  const { request, context } = exchange;
  const { device, runtime } = context;
  if (!device) throw new DomainError('not-signed-in');
  const [, id, size] = /^\/api\/photo\/([0-9a-f]{32})(?:\/(large|small))?(?:\?|$)/.exec(request.url ?? '') ?? [];
  if (id === undefined) throw new DomainError('not-found');
  const reads = request.method === 'GET' || request.method === 'HEAD';
  if (reads && (size === 'large' || size === 'small'))
    return servePhoto(exchange, { runtime, device, photoId: id, size });
  if (request.method !== 'POST' || size !== undefined) throw new DomainError('not-found');
  return receive(exchange, { ...place, id: idSchema.parse(id) });
}

async function receive(
  { request, response, context }: Exchange<PhotoContext>,
  { room, intake, id }: Place & { readonly id: string },
): Promise<void> {
  const { runtime, device, limits } = context;
  if (!device) throw new DomainError('not-signed-in');
  refuseOtherVersion(context);
  limits.spend('writes', device.id, runtime.clock.now());
  const asked = photoTagSchema.safeParse(Object.fromEntries(new URL(request.url ?? '', 'http://here').searchParams));
  if (!asked.success) throw new DomainError('bad-input', { field: String(asked.error.issues[0]?.path[0] ?? '') });
  const tag = asked.data;
  checkNewPhoto(accessTo({ runtime, device }, tag.evaluation), tag);
  if (room.uploads >= mostUploads) throw new DomainError('busy');
  room.uploads += 1;
  try {
    answerJson(response, 200, await keepUpload(request, { ctx: { runtime, device }, intake, photo: { id, tag } }));
  } finally {
    room.uploads -= 1;
  }
}

type Keeping = { readonly ctx: Asker; readonly intake: Intake; readonly photo: Pick<NewPhoto, 'id' | 'tag'> };

/** Answers what is kept, and under which id; of an upload that is not, no file is left. Throws file-damaged when other bytes came than were sent. */
async function keepUpload(request: IncomingMessage, { ctx, intake, photo }: Keeping): Promise<PhotoKept> {
  const { runtime } = ctx;
  const folder = picturesFolder(runtime.db);
  const files = { file: runtime.random.id(), thumb: runtime.random.id() };
  const path = uploadPath(folder, files.file);
  let fresh = false;
  try {
    const clip = request.headers['content-type']?.startsWith('video/') === true;
    const hash = await receiveUpload(request, { path, most: clip ? photoLimits.clipBytes : photoLimits.pictureBytes });
    // Sent again after an answer that was lost: nothing is written twice.
    const before = keptAlready(runtime, { ...photo, hash: null });
    if (before !== null && photo.tag.hash !== undefined && photo.tag.hash !== before.hash)
      throw new DomainError('in-use');
    if (before !== null) return { ...before, sent: photo.id };
    if (photo.tag.hash !== undefined && photo.tag.hash !== hash) throw new DomainError('file-damaged');
    const stored = storePhoto(ctx, { ...photo, ...files, media: await intake({ path, folder, ...files }) });
    fresh = stored.fresh;
    return { sent: photo.id, hash, id: stored.id };
  } finally {
    await rm(path, { force: true });
    if (!fresh) await Promise.all(Object.values(files).map((name) => removePicture(folder, name)));
  }
}

/** Where an upload lies until its files are written. */
const uploadPath = (folder: string, file: string): string => join(folder, `${file}.upload`);

type Turnstile = <T>(work: () => Promise<T>) => Promise<T>;

/** Runs one work after the other and lets at most `waiting` wait. Throws busy: a device tries again by itself. */
function createTurnstile(waiting: number): Turnstile {
  let inside = 0;
  let last: Promise<unknown> = Promise.resolve();
  return async (work) => {
    if (inside > waiting) throw new DomainError('busy');
    inside += 1;
    const mine = last.then(work, work);
    last = mine.catch(() => undefined);
    try {
      return await mine;
    } finally {
      inside -= 1;
    }
  };
}
