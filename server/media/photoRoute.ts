import type { IncomingMessage, ServerResponse } from 'node:http';
import { TRPCError } from '@trpc/server';
import { getHTTPStatusCodeFromError } from '@trpc/server/http';
import { settleFault } from '#db/settleFault';
import type { StorageFault } from '#db/storageFault';
import { idSchema } from '#lib/contract/id';
import { photoTagSchema } from '#lib/contract/photo';
import { DomainError } from '#lib/errors';
import { photoLimits } from '#lib/photo/photoLimits';
import { accessTo } from '../api/access';
import type { Context } from '../api/context';
import { errorMap } from '../api/errorMap';
import { checkNewPhoto, keptAlready, storePhoto } from '../commands/storePhoto';
import { readBody } from './readBody';
import type { Press } from './press';
import { readMedia } from './readMedia';
import { servePhoto } from './servePhoto';
import { createTurnstile } from './turnstile';

export type PhotoContext = Pick<Context, 'runtime' | 'device' | 'limits' | 'requestId' | 'log'>;

export type PhotoRoute = (request: IncomingMessage, response: ServerResponse, context: () => PhotoContext) => Promise<void>;

/** Bodies held in memory at once; whoever comes later is asked to try again, which a device does by itself. */
const mostBodies = 3;
const waitingPictures = 6;

/**
 * Pictures go in and out beside tRPC, as plain bytes: `POST /api/photo/ID?evaluation=…` and `GET /api/photo/ID/large` or
 * `/small`. The address names the picture by its random id, never a puppy. Answers nothing to strangers.
 */
export function createPhotoRoute(pressOne: Press): PhotoRoute {
  const room = { bodies: 0 };
  const turnstile = createTurnstile(waitingPictures);
  const press: Press = (bytes) => turnstile(() => pressOne(bytes));
  return async (request, response, contextOf) => {
    let context: PhotoContext | null = null;
    try {
      context = contextOf();
      await answer({ request, response, context }, { room, press });
    } catch (error) {
      refuse({ request, response, context }, error);
    }
  };
}

type Exchange<C> = { readonly request: IncomingMessage; readonly response: ServerResponse; readonly context: C };
type Place = { readonly room: { bodies: number }; readonly press: Press };

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

async function receive({ request, response, context }: Exchange<PhotoContext>, { room, press, id }: Place & { readonly id: string }): Promise<void> {
  const { runtime, device, limits } = context;
  if (!device) throw new DomainError('not-signed-in');
  limits.spend('writes', device.id, runtime.clock.now());
  const asked = photoTagSchema.safeParse(Object.fromEntries(new URL(request.url ?? '', 'http://here').searchParams));
  if (!asked.success) throw new DomainError('bad-input', { field: String(asked.error.issues[0]?.path[0] ?? '') });
  const tag = asked.data;
  const { facts, viewer } = accessTo({ runtime, device }, tag.evaluation);
  checkNewPhoto(facts, { tag, viewer });
  if (room.bodies >= mostBodies) throw new DomainError('busy');
  room.bodies += 1;
  try {
    const clip = request.headers['content-type']?.startsWith('video/') === true;
    const body = await readBody(request, clip ? photoLimits.clipBytes : photoLimits.pictureBytes);
    // Sent again after an answer that was lost: nothing is pressed twice.
    const kept = keptAlready(runtime, { id, tag, media: null }) ?? (await storePhoto(runtime, { id, tag, viewer, media: await readMedia(body, press) }));
    json(response, 200, { id: kept });
  } finally {
    room.bodies -= 1;
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
