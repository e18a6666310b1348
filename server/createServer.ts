import {
  createServer as createHttpServer,
  type IncomingMessage,
  type RequestListener,
  type Server,
  type ServerResponse,
} from 'node:http';
import { createServer as createHttpsServer } from 'node:https';
import { hostname, networkInterfaces } from 'node:os';
import { createHTTPHandler } from '@trpc/server/adapters/standalone';
import { type Device, findDevice, touchDevice } from '#db/queries/devices';
import { getSeat } from '#db/queries/seats';
import { sessionLife, sessionOver } from '#lib/access/sessionLife';
import { callIdIn } from './api/callId';
import { type Context, pageVersionIn } from './api/context';
import { appRouter } from './api/router';
import { clientAddress } from './clientAddress';
import { createLimits, standardRates, type Limits, type Rates } from './limits';
import { answerPlainly, createFrontDoor } from './frontDoor';
import { knownHosts, namesInOrigin } from './knownHosts';
import { attachSocketIo, type Membership } from './live/socketIo';
import { createCarryRoute } from './carry/carryRoute';
import type { Examine } from './carry/examine';
import { createPhotoRoute } from './media/photoRoute';
import type { Intake } from './media/intake';
import { answersProbe } from './probes';
import { hashToken } from './random';
import type { Runtime, Tenancy } from './runtime';
import { securityHeaders } from './securityHeaders';

export type ServerOptions = {
  readonly tenancy: Tenancy;
  /** Serves the pages; they hold no data. */
  readonly pages: RequestListener;
  /** CSP sources for the pages' inline scripts, each with a leading blank. */
  readonly scripts: string;
  readonly cookieName: string;
  readonly tls: { readonly cert: string; readonly key: string } | null;
  /** The one origin to accept, behind a proxy; null takes the Host header's. */
  readonly origin: string | null;
  /** Names by which people reach this server, beside those of the machine itself and of `origin`. */
  readonly hosts?: readonly string[];
  /** The address of the proxy in front, whose word on where a request comes from is taken; null takes nobody's. */
  readonly trustedProxy?: string | null;
  /** Whether data can be read and writing has not been ended by a failing disk, for whoever watches over the process; throws where reading fails. */
  readonly ready?: () => boolean;
  readonly intake: Intake;
  /** Looks an evaluation over that arrives in a file. */
  readonly examine: Examine;
  readonly rates?: Rates;
  readonly requestId: () => string;
  readonly log: (line: string) => void;
};

const minute = 60_000;

/** Builds the server without listening: API first, sockets beside it, pages for the rest. Closing lets requests under way finish. */
export function createServer(options: ServerOptions): { readonly http: Server; close(): Promise<void> } {
  const limits = createLimits(options.rates ?? standardRates);
  const api = createHTTPHandler({
    router: appRouter,
    basePath: '/api/trpc/',
    maxBodySize: 524_288,
    maxBatchSize: 100,
    createContext: ({ req, res }) => contextOf({ ...options, limits }, req, res),
    onError: ({ error, req }) => {
      if (error.code === 'PAYLOAD_TOO_LARGE') door.report('too-large', req);
    },
  });
  let stopping = false;
  const door = createFrontDoor({
    known: knownHosts({
      names: [...(options.hosts ?? []), ...namesInOrigin(options.origin)],
      addresses: ownAddresses,
      machine: hostname(),
      now: () => Date.now(),
    }),
    origin: options.origin,
    stopping: () => stopping,
    now: () => Date.now(),
    log: options.log,
  });
  const photos = createPhotoRoute(options.intake);
  const carry = createCarryRoute(options);
  const listener: RequestListener = (request, response) => {
    if (door.refuses(request, response)) return;
    if (answersProbe(request, response, options.ready ?? (() => true))) return;
    if (!request.url?.startsWith('/api/')) return options.pages(request, response);
    response.setHeader('Cache-Control', 'no-store');
    const plain = request.url.startsWith('/api/photo/')
      ? photos
      : /^\/api\/evaluation(?:[/?]|$)/.test(request.url)
        ? carry
        : null;
    if (plain) return void plain(request, response, () => contextOf({ ...options, limits }, request, response));
    if (!request.url.startsWith('/api/trpc/')) return answerPlainly(response, { status: 404, code: 'not-found' });
    return api(request, response);
  };
  const http = options.tls ? createHttpsServer(options.tls, listener) : createHttpServer(listener);
  const sockets = attachSocketIo(http, {
    allowed: (request) => door.admitsSocket(request),
    admit: (request) => admit(options, request),
  });
  // First of all listeners: the socket's answers pass the one above by.
  http.prependListener('request', (_, response) =>
    securityHeaders(response, { scripts: options.scripts, secure: isSecure(options) }),
  );
  return {
    http,
    close: async () => {
      stopping = true;
      await drain(http, sockets.close());
      await options.tenancy.close();
    },
  };
}

type Session = { readonly runtime: Runtime; readonly device: Device | null; readonly secretHash: string | null };

function sessionOf({ tenancy, cookieName, log }: ServerOptions, request: IncomingMessage): Session {
  const secret = readCookie(request.headers.cookie, cookieName);
  const runtime = tenancy.runtimeFor(secret);
  if (!secret) return { runtime, device: null, secretHash: null };
  const secretHash = hashToken(secret);
  const device = findDevice(runtime.db, secretHash);
  const now = runtime.clock.now();
  // A demo's copy ends as a whole, its scripted seats with it.
  if (!device || (runtime.demo === null && sessionOver(device, now))) return { runtime, device: null, secretHash };
  if (now - device.seenAt >= minute) {
    try {
      touchDevice(runtime.db, device.id, now);
    } catch (error) {
      // Reading goes on where nothing can be written.
      log(`session: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  return { runtime, device, secretHash };
}

/** Outside tRPC nobody catches: a throw here would end the process for everybody. */
function admit(options: ServerOptions, request: IncomingMessage): Membership | null {
  try {
    const { runtime, device } = sessionOf(options, request);
    return device && membershipOf(runtime, device);
  } catch (error) {
    options.log(`socket: ${error instanceof Error ? error.stack : String(error)}`);
    return null;
  }
}

function contextOf(
  options: ServerOptions & { readonly limits: Limits },
  request: IncomingMessage,
  response: ServerResponse,
): Context {
  const secure = isSecure(options);
  return {
    ...sessionOf(options, request),
    callId: callIdIn(request),
    pageVersion: pageVersionIn(request),
    limits: options.limits,
    address: clientAddress(request, options.trustedProxy ?? null),
    requestId: options.requestId(),
    log: options.log,
    setSession: (secret, milliseconds = sessionLife.seat.whole) => {
      const life = secret === '' ? 0 : milliseconds / 1000;
      const parts = [
        `${options.cookieName}=${secret}`,
        'Path=/',
        'HttpOnly',
        'SameSite=Lax',
        `Max-Age=${life}`,
        ...(secure ? ['Secure'] : []),
      ];
      response.setHeader('Set-Cookie', parts.join('; '));
    },
  };
}

/** Whether people reach this server by TLS only: its own, or that of the proxy in front. */
function isSecure({ tls, origin }: ServerOptions): boolean {
  return tls !== null || origin?.startsWith('https://') === true;
}

function ownAddresses(): readonly string[] {
  return Object.values(networkInterfaces()).flatMap((list) => (list ?? []).map((one) => one.address));
}

/** One cookie of a Cookie header; undefined when it is not there. */
function readCookie(header: string | undefined, name: string): string | undefined {
  for (const part of (header ?? '').split(';')) {
    const [key, ...value] = part.trim().split('=');
    if (key === name) return value.join('=');
  }
  return undefined;
}

/** What a device's socket may hear: the owner every evaluation and her own seat; a seat its own evaluation and itself. */
function membershipOf(runtime: Runtime, device: Device): Membership | null {
  const { hub, clock } = runtime;
  const over = () => runtime.demo === null && sessionOver({ ...device, seenAt: clock.now() }, clock.now());
  if (device.owner) return { hub, over, deviceId: device.id, wants: ({ seat }) => seat === null || seat.owner };
  if (device.seatId === null) return null;
  const { id, evaluationId } = getSeat(runtime.db, device.seatId);
  return {
    hub,
    over,
    deviceId: device.id,
    wants: ({ seat, event }) => event.evaluation === evaluationId && (seat === null || seat.id === id),
  };
}

/** How long requests under way may take to finish once the server stops; a write takes milliseconds. */
const patience = 5000;

/**
 * Waits until `closing`, which has stopped the listening, has seen the last connection go: idle ones are closed at once,
 * a request under way gets its answer first. Whoever has not finished by then, or never reads the end of a socket, is cut off.
 */
async function drain(http: Server, closing: Promise<void>): Promise<void> {
  const sweep = setInterval(() => http.closeIdleConnections(), 25);
  let timer: NodeJS.Timeout | undefined;
  const tooLong = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, patience);
  });
  await Promise.race([closing, tooLong]);
  clearInterval(sweep);
  clearTimeout(timer);
  http.closeAllConnections();
}
