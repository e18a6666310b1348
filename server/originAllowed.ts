import type { IncomingMessage } from 'node:http';

/**
 * Whether a request that changes something, or opens a socket, comes from a page of this very server: its Origin must
 * be there and match the Host it was sent to (or the one origin configured, behind a proxy). CORS does not guard sockets.
 */
export function originAllowed(request: Pick<IncomingMessage, 'headers'>, configured: string | null): boolean {
  const { origin, host } = request.headers;
  if (origin === undefined) return false;
  if (configured !== null) return origin === configured;
  return host !== undefined && (origin === `http://${host}` || origin === `https://${host}`);
}
