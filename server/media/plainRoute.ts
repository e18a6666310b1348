import { createHash } from 'node:crypto';
import { mkdir, open, rm } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { dirname } from 'node:path';
import { TRPCError } from '@trpc/server';
import { getHTTPStatusCodeFromError } from '@trpc/server/http';
import { settleFault, type StorageFault } from '#db/storageFault';
import { DomainError } from '#lib/errors';
import type { Context } from '../api/context';
import { errorMap } from '../api/errorMap';

type PlainContext = Pick<Context, 'runtime' | 'requestId' | 'log'>;
type Plain = {
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
  readonly context: PlainContext | null;
};

/** Which door it was: no id and no query goes into the log. */
const placeOf = ({ url = '' }: IncomingMessage): string => /^\/api\/(\w+)/.exec(url)?.[1] ?? '';

/** The same words as tRPC's refusals, so that a page reads both alike. */
export function answerRefused({ request, response, context }: Plain, error: unknown): void {
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
  context?.log(
    `${context.requestId} ${placeOf(request)}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
  );
  answerJson(response, 500, {
    error: { message: 'unknown', data: { code: 'unknown', details: {}, requestId: context?.requestId ?? '' } },
  });
}

/** Files are written beside the data file: a full disk is told alike for both. */
function diskFault({ runtime }: PlainContext, error: unknown): StorageFault | null {
  const full = error instanceof Error && 'code' in error && (error.code === 'ENOSPC' || error.code === 'EDQUOT');
  return full ? 'disk-full' : settleFault(runtime.db, error);
}

function answerRefusal(response: ServerResponse, { code, details }: DomainError): void {
  const status = getHTTPStatusCodeFromError(new TRPCError({ code: errorMap[code] }));
  answerJson(response, status, { error: { message: code, data: { code, details } } });
}

export function answerJson(response: ServerResponse, status: number, body: unknown): void {
  response.setHeader('Content-Type', 'application/json');
  response.writeHead(status).end(JSON.stringify(body));
}

/**
 * A request's bytes, at most `most` of them, into a new file for this account alone; answers their SHA-256 in hex. Memory holds no picture, however slow
 * the link. Throws file-too-large, by the announced length where there is one, or the disk's fault; then no file is left, and
 * the request can still be answered.
 */
export async function receiveUpload(
  request: IncomingMessage,
  { path, most }: { readonly path: string; readonly most: number },
): Promise<string> {
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
