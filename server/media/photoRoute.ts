import { createHash } from 'node:crypto';
import { mkdir, open, rm } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { dirname, join } from 'node:path';
import { TRPCError } from '@trpc/server';
import { getHTTPStatusCodeFromError } from '@trpc/server/http';
import { picturesFolder } from '#db/picturesFolder';
import { settleFault, type StorageFault } from '#db/storageFault';
import { idSchema } from '#lib/contract/fields';
import { type PhotoKept, photoTagSchema } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import { photoLimits } from '#lib/photo/photoFile';
import { accessTo } from '../api/access';
import type { Context } from '../api/context';
import { errorMap } from '../api/errorMap';
import { checkNewPhoto, keptAlready, type NewPhoto, storePhoto } from '../commands/photos';
import type { Runtime } from '../runtime';
import type { Intake } from './intake';
import { servePhoto } from './servePhoto';
import { removePicture } from './takeIn';

type PhotoContext = Pick<Context, 'runtime' | 'device' | 'limits' | 'requestId' | 'log'>;

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
      await answer({ request, response, context }, { room, intake, again: contextOf });
    } catch (error) {
      refuse({ request, response, context }, error);
    }
  };
}

type Exchange<C> = { readonly request: IncomingMessage; readonly response: ServerResponse; readonly context: C };
type Place = { readonly room: { uploads: number }; readonly intake: Intake; /** Who asks by now: an upload takes its time. */ readonly again: () => PhotoContext };

async function answer(exchange: Exchange<PhotoContext>, place: Place): Promise<void> {
  const { request, context } = exchange;
  const { device, runtime } = context;
  if (!device) throw new DomainError('not-signed-in');
  const [, id, size] = /^\/api\/photo\/([0-9a-f]{32})(?:\/(large|small))?(?:\?|$)/.exec(request.url ?? '') ?? [];
  if (id === undefined) throw new DomainError('not-found');
  const reads = request.method === 'GET' || request.method === 'HEAD';
  if (reads && (size === 'large' || size === 'small')) return servePhoto(exchange, { runtime, device, photoId: id, size });
  if (request.method !== 'POST' || size !== undefined) throw new DomainError('not-found');
  return receive(exchange, { ...place, id: idSchema.parse(id) });
}

async function receive({ request, response, context }: Exchange<PhotoContext>, { room, intake, again, id }: Place & { readonly id: string }): Promise<void> {
  const { runtime, device, limits } = context;
  if (!device) throw new DomainError('not-signed-in');
  limits.spend('writes', device.id, runtime.clock.now());
  const asked = photoTagSchema.safeParse(Object.fromEntries(new URL(request.url ?? '', 'http://here').searchParams));
  if (!asked.success) throw new DomainError('bad-input', { field: String(asked.error.issues[0]?.path[0] ?? '') });
  const tag = asked.data;
  const asker = () => {
    const { device: present } = again();
    if (!present) throw new DomainError('not-signed-in');
    return accessTo({ runtime, device: present }, tag.evaluation);
  };
  checkNewPhoto(asker(), tag);
  if (room.uploads >= mostUploads) throw new DomainError('busy');
  room.uploads += 1;
  try {
    json(response, 200, await keepUpload(request, { runtime, intake, photo: { id, tag, asker } }));
  } finally {
    room.uploads -= 1;
  }
}

type Keeping = { readonly runtime: Runtime; readonly intake: Intake; readonly photo: Pick<NewPhoto, 'id' | 'tag' | 'asker'> };

/** Answers what is kept, and under which id; of an upload that is not, no file is left. Throws file-damaged when other bytes came than were sent. */
async function keepUpload(request: IncomingMessage, { runtime, intake, photo }: Keeping): Promise<PhotoKept> {
  const folder = picturesFolder(runtime.db);
  const files = { file: runtime.random.id(), thumb: runtime.random.id() };
  const path = uploadPath(folder, files.file);
  let fresh = false;
  try {
    const clip = request.headers['content-type']?.startsWith('video/') === true;
    const hash = await receiveUpload(request, { path, most: clip ? photoLimits.clipBytes : photoLimits.pictureBytes });
    // Decided anew: the device may have been ended, or its rights taken, while it was sending.
    checkNewPhoto(photo.asker(), photo.tag);
    // Sent again after an answer that was lost: nothing is written twice.
    const before = keptAlready(runtime, { ...photo, hash: null });
    if (before !== null && photo.tag.hash !== undefined && photo.tag.hash !== before.hash) throw new DomainError('in-use');
    if (before !== null) return { ...before, sent: photo.id };
    if (photo.tag.hash !== undefined && photo.tag.hash !== hash) throw new DomainError('file-damaged');
    const stored = storePhoto(runtime, { ...photo, ...files, media: await intake({ path, folder, ...files }) });
    fresh = stored.fresh;
    return { sent: photo.id, hash, id: stored.id };
  } finally {
    await rm(path, { force: true });
    if (!fresh) await Promise.all(Object.values(files).map((name) => removePicture(folder, name)));
  }
}

/** The same words as tRPC's refusals, so that a page reads both alike. */
function refuse({ request, response, context }: Exchange<PhotoContext | null>, error: unknown): void {
  // What is still being sent is let run out unread: a browser reads no answer before it has finished sending.
  request.resume();
  if (response.headersSent) {
    response.destroy();
    return;
  }
  for (const name of ['Content-Disposition', 'Accept-Ranges', 'Vary']) response.removeHeader(name);
  response.setHeader('Cache-Control', 'no-store');
  if (error instanceof DomainError) return answerRefusal(response, error);
  const fault = context ? diskFault(context, error) : null;
  if (fault) return answerRefusal(response, new DomainError(fault));
  // Whoever hung up in the middle of sending reads no answer, and is no fault of the server's.
  if (request.destroyed && !request.complete) return;
  context?.log(`${context.requestId} photo: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  json(response, 500, { error: { message: 'unknown', data: { code: 'unknown', details: {}, requestId: context?.requestId ?? '' } } });
}

/** Files are written beside the data file: a full disk is told alike for both. */
function diskFault({ runtime }: PhotoContext, error: unknown): StorageFault | null {
  const full = error instanceof Error && 'code' in error && (error.code === 'ENOSPC' || error.code === 'EDQUOT');
  return full ? 'disk-full' : settleFault(runtime.db, error);
}

function answerRefusal(response: ServerResponse, { code, details }: DomainError): void {
  const status = getHTTPStatusCodeFromError(new TRPCError({ code: errorMap[code] }));
  json(response, status, { error: { message: code, data: { code, details } } });
}

function json(response: ServerResponse, status: number, body: unknown): void {
  response.setHeader('Content-Type', 'application/json');
  response.writeHead(status).end(JSON.stringify(body));
}

/** Where an upload lies until its files are written. */
const uploadPath = (folder: string, file: string): string => join(folder, `${file}.upload`);

/**
 * A request's bytes, at most `most` of them, into a new file for this account alone; answers their SHA-256 in hex. Memory holds no picture, however slow
 * the link. Throws file-too-large, by the announced length where there is one, or the disk's fault; then no file is left, and
 * the request can still be answered.
 */
async function receiveUpload(request: IncomingMessage, { path, most }: { readonly path: string; readonly most: number }): Promise<string> {
  const tooLarge = () => new DomainError('file-too-large', { bytes: most });
  if (Number(request.headers['content-length'] ?? 0) > most) throw tooLarge();
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const handle = await open(path, 'wx', 0o600);
  try {
    let size = 0;
    const hash = createHash('sha256');
    for await (const chunk of request.iterator({ destroyOnReturn: false })) {
      if (!Buffer.isBuffer(chunk)) continue;
      size += chunk.byteLength;
      if (size > most) throw tooLarge();
      hash.update(chunk);
      await handle.appendFile(chunk);
    }
    return hash.digest('hex');
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  } finally {
    await handle.close();
  }
}

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
