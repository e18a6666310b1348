import type { IncomingMessage } from 'node:http';
import { isIPv6 } from 'node:net';

/**
 * Whom a request comes from, as far as limits are concerned: an IPv4 address, or the /64 of an IPv6 one, since a household
 * or a rented server has a whole /64 to change addresses in. What X-Forwarded-For says counts only from the trusted proxy,
 * and of it only the last entry, which that proxy wrote itself.
 */
export function clientAddress(
  request: Pick<IncomingMessage, 'headers' | 'socket'>,
  trustedProxy: string | null,
): string {
  const peer = plainAddress(request.socket.remoteAddress ?? '');
  const forwarded = [request.headers['x-forwarded-for'] ?? ''].flat().join(',').split(',').at(-1)?.trim() ?? '';
  const address =
    trustedProxy !== null && peer === plainAddress(trustedProxy) && forwarded !== '' ? plainAddress(forwarded) : peer;
  return isIPv6(address) ? networkOf(address) : address;
}

/** An IPv4 address that a dual-stack socket shows as ::ffff:a.b.c.d is that IPv4 address (RFC 4291, 2.5.5.2). */
function plainAddress(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address);
  return mapped?.[1] ?? address;
}

/** The first four groups of an IPv6 address written in any form of RFC 4291, 2.2. */
function networkOf(address: string): string {
  const [head = '', tail] = (address.split('%')[0] ?? '').split('::');
  const groups = head === '' ? [] : head.split(':');
  const after = tail === undefined || tail === '' ? 0 : tail.split(':').length + (tail.includes('.') ? 1 : 0);
  const zeros = tail === undefined ? 0 : Math.max(0, 8 - groups.length - after);
  const all = [
    ...groups,
    ...Array.from({ length: zeros }, () => '0'),
    ...(tail ?? '').split(':').filter((group) => group !== ''),
  ];
  return `${all
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(':')}::/64`;
}
