import type { IncomingMessage, ServerResponse } from 'node:http';
import { isIPv6 } from 'node:net';
import type { FrontRefusal } from '#lib/errors';
import type { KnownHosts } from './knownHosts';

type Setting = {
  readonly known: KnownHosts;
  /** The one origin to accept, behind a proxy; null takes the Host header's. */
  readonly origin: string | null;
  readonly stopping: () => boolean;
  readonly now: () => number;
  readonly log: (line: string) => void;
};

export type FrontDoor = {
  /** Answers what does not come in, and says so in the log; true when it has. */
  refuses(request: IncomingMessage, response: ServerResponse): boolean;
  /** The same for a socket, which is answered by whoever asks. */
  admitsSocket(request: IncomingMessage): boolean;
  /** One line on a refusal: its reason and where it knocked; no query, no body, no cookie, and of an address its network only. */
  report(reason: FrontRefusal, request: IncomingMessage): void;
};

const statusOf: Readonly<Record<FrontRefusal, number>> = {
  'unknown-host': 421,
  'foreign-page': 403,
  stopping: 503,
  'too-large': 413,
};
/** A stranger who knocks a thousand times writes no thousand lines. */
const lineEvery = 10_000;

/** What every request passes before anything looks at it: is the server still open, was it meant, did a page of ours send it. */
export function createFrontDoor({ known, origin, stopping, now, log }: Setting): FrontDoor {
  const told = new Map<FrontRefusal, { at: number; unsaid: number }>();
  const report = (reason: FrontRefusal, request: IncomingMessage) => {
    const before = told.get(reason);
    if (before && now() - before.at < lineEvery) {
      before.unsaid += 1;
      return;
    }
    told.set(reason, { at: now(), unsaid: 0 });
    const more = before && before.unsaid > 0 ? `, and ${before.unsaid} more since the last such line` : '';
    log(
      `refused (${reason}): ${request.method ?? ''} ${placeOf(request)} for host ${plainly(request.headers.host)} by a page of ${plainly(request.headers.origin)}, from ${networkOf(request)}${more}`,
    );
  };
  return {
    report,
    refuses: (request, response) => {
      const reason = reasonAgainst(request, { known, origin, stopping });
      if (reason === null) return false;
      report(reason, request);
      answerFrontRefusal(request, response, reason);
      return true;
    },
    admitsSocket: (request) => {
      const reason = stopping()
        ? 'stopping'
        : !known(request.headers.host)
          ? 'unknown-host'
          : originAllowed(request, origin)
            ? null
            : 'foreign-page';
      if (reason !== null) report(reason, request);
      return reason === null;
    },
  };
}

function reasonAgainst(
  request: IncomingMessage,
  { known, origin, stopping }: Pick<Setting, 'known' | 'origin' | 'stopping'>,
): FrontRefusal | null {
  if (stopping()) return 'stopping';
  if (!known(request.headers.host)) return 'unknown-host';
  const changes = request.method !== 'GET' && request.method !== 'HEAD';
  return request.url?.startsWith('/api/') === true && changes && !originAllowed(request, origin)
    ? 'foreign-page'
    : null;
}

function answerFrontRefusal(request: IncomingMessage, response: ServerResponse, reason: FrontRefusal): void {
  response.setHeader('Cache-Control', 'no-store');
  if (reason === 'stopping') response.setHeader('Connection', 'close');
  // Let run out unread: a browser reads no answer before it has finished sending.
  request.resume();
  if (request.url?.startsWith('/api/') === true)
    return answerPlainly(response, { status: statusOf[reason], code: reason });
  response
    .writeHead(statusOf[reason], { 'Content-Type': 'text/plain; charset=utf-8' })
    .end(`${sentence(reason, request)}\n`);
}

/** A page that cannot be shown cannot use the page's words. */
function sentence(reason: FrontRefusal, { headers }: IncomingMessage): string {
  if (reason === 'stopping') return 'This server is being stopped. Try again once it runs.';
  return `This server is not known by the name “${plainly(headers.host)}”. Open it by the address that was printed when it started. If it shall have this name, whoever runs it adds the name to the setting EVENSTACK_HOSTS.`;
}

/** In the form of tRPC's own refusals, so that its client reads it as one. */
export function answerPlainly(
  response: ServerResponse,
  { status, code }: { readonly status: number; readonly code: string },
): void {
  response.statusCode = status;
  response.setHeader('Content-Type', 'application/json');
  const refusal = code === 'not-found' ? -32_004 : -32_003;
  response.end(
    JSON.stringify({
      error: { message: code, code: refusal, data: { code, details: {}, httpStatus: status, requestId: '' } },
    }),
  );
}

const placeOf = ({ url = '' }: IncomingMessage) => plainly(/^\/(?:api\/\w+|[\w-]*)/.exec(url)?.[0]);

/** What a stranger wrote, fit for a line of text. */
const plainly = (text: string | undefined) =>
  text === undefined || text === '' ? 'none' : text.replace(/[^\w.:/[\]-]/g, '?').slice(0, 80);

function networkOf({ socket }: IncomingMessage): string {
  const address = socket.remoteAddress ?? '';
  if (isIPv6(address) && !address.startsWith('::ffff:')) return `${address.split(':').slice(0, 3).join(':')}:…`;
  return `${address.replace('::ffff:', '').split('.').slice(0, 3).join('.')}.…`;
}

/**
 * Whether a request that changes something, or opens a socket, comes from a page of this very server: its Origin must
 * be there and match the Host it was sent to (or the one origin configured, behind a proxy). CORS does not guard sockets.
 */
function originAllowed(request: Pick<IncomingMessage, 'headers'>, configured: string | null): boolean {
  const { origin, host } = request.headers;
  if (origin === undefined) return false;
  if (configured !== null) return origin === configured;
  return host !== undefined && (origin === `http://${host}` || origin === `https://${host}`);
}
