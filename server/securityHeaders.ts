import type { ServerResponse } from 'node:http';
import { protocolHeader, protocolVersion, serverMark } from '#lib/contract/wire';

/** On every answer, whatever the route. `scripts` are the hashes of the inline scripts of the built pages. */
export function securityHeaders(
  response: ServerResponse,
  { scripts, secure }: { readonly scripts: string; readonly secure: boolean },
): void {
  const policy = [
    "default-src 'self'",
    `script-src 'self'${scripts}`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');
  response.setHeader(serverMark.name, serverMark.value);
  response.setHeader(protocolHeader, String(protocolVersion));
  response.setHeader('Content-Security-Policy', policy);
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cross-Origin-Opener-Policy', 'same-origin');
  response.setHeader('Cross-Origin-Resource-Policy', 'same-origin');
  response.setHeader('Permissions-Policy', 'camera=(self), microphone=(), geolocation=()');
  if (secure) response.setHeader('Strict-Transport-Security', 'max-age=31536000');
}
