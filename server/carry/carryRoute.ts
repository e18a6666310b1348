import type { IncomingMessage, ServerResponse } from 'node:http';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { evaluationFileLimits } from '#lib/contract/fileLimits';
import { idSchema } from '#lib/contract/fields';
import { DomainError } from '#lib/errors';
import { accessTo } from '../api/access';
import { type Context, refuseOtherVersion } from '../api/context';
import type { Intake } from '../media/intake';
import { answerJson, answerRefused, receiveUpload } from '../media/plainRoute';
import { takeEvaluation } from '../reveal/evaluationFile';
import { evaluationZip } from './evaluationZip';
import type { Examine } from './examine';
import { importEvaluation, newArrival } from './importEvaluation';
import { megabytes, refused } from './readArrival';

type CarryContext = Pick<Context, 'runtime' | 'device' | 'pageVersion' | 'limits' | 'requestId' | 'log'>;
type CarryRoute = (request: IncomingMessage, response: ServerResponse, context: () => CarryContext) => Promise<void>;
type Exchange = {
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
  readonly context: CarryContext;
};

/**
 * One evaluation as a file, out and in, for the owner alone, as plain bytes beside tRPC: `GET /api/evaluation/ID` and
 * `POST /api/evaluation`, which answers the id. One comes in at a time.
 */
export function createCarryRoute({
  intake,
  examine,
}: {
  readonly intake: Intake;
  readonly examine: Examine;
}): CarryRoute {
  const room = { taken: false };
  return async (request, response, contextOf) => {
    let context: CarryContext | null = null;
    try {
      context = contextOf();
      await answer({ request, response, context }, { room, intake, examine });
    } catch (error) {
      answerRefused({ request, response, context }, error);
    }
  };
}

type Place = { readonly room: { taken: boolean }; readonly intake: Intake; readonly examine: Examine };

async function answer(exchange: Exchange, place: Place): Promise<void> {
  const { request, context } = exchange;
  const { device } = context;
  if (!device) throw new DomainError('not-signed-in');
  const [, id] = /^\/api\/evaluation(?:\/([0-9a-f]{32}))?(?:\?|$)/.exec(request.url ?? '') ?? [];
  if (id !== undefined && request.method === 'GET') return give(exchange, idSchema.parse(id));
  if (id === undefined && request.method === 'POST') return receive(exchange, place);
  throw new DomainError('not-found');
}

/** To a seat of the evaluation it is not allowed, to a stranger it is not there. */
async function give({ response, context: { runtime, device, limits } }: Exchange, id: string): Promise<void> {
  if (!device) throw new DomainError('not-signed-in');
  if (!accessTo({ runtime, device }, id).viewer.owner) throw new DomainError('not-allowed');
  limits.spend('writes', device.id, runtime.clock.now());
  const leaving = takeEvaluation(runtime.db, id, runtime.clock.now());
  const stream = await evaluationZip(runtime.db, leaving);
  response.setHeader('Content-Type', 'application/zip');
  response.setHeader('Content-Disposition', 'attachment');
  response.writeHead(200);
  // Whoever goes away in the middle is no fault.
  await pipeline(stream, response).catch(() => undefined);
}

/** Writes are counted like any; what was received is gone again whatever becomes of it. */
async function receive({ request, response, context }: Exchange, { room, intake, examine }: Place): Promise<void> {
  const { runtime, device, limits } = context;
  if (!device) throw new DomainError('not-signed-in');
  if (!device.owner || runtime.demo !== null) throw new DomainError('not-allowed');
  refuseOtherVersion(context);
  limits.spend('writes', device.id, runtime.clock.now());
  if (room.taken) throw new DomainError('busy');
  room.taken = true;
  const folder = await newArrival(runtime.db).catch((error: unknown) => {
    room.taken = false;
    throw error;
  });
  let id = '';
  try {
    const path = join(folder, 'arrived');
    await received(request, path);
    id = await importEvaluation({ runtime, intake, examine }, { path, folder });
  } finally {
    room.taken = false;
    await rm(folder, { recursive: true, force: true });
  }
  answerJson(response, 200, { id });
}

async function received(request: IncomingMessage, path: string): Promise<void> {
  try {
    await receiveUpload(request, { path, most: evaluationFileLimits.wholeBytes });
  } catch (error) {
    if (error instanceof DomainError && error.code === 'file-too-large')
      throw refused(
        `This file is larger than ${megabytes(evaluationFileLimits.wholeBytes)}, which is the most that is read.`,
      );
    throw error;
  }
}
