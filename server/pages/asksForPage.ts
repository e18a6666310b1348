import type { IncomingMessage } from 'node:http';

/**
 * Whether a request is one that a page or its files can answer: read by path. Anything else is some program's, and would
 * only be parsed and complained about: pages take no form and no action, and this server is nobody's proxy.
 */
export function asksForPage({ method, url }: Pick<IncomingMessage, 'method' | 'url'>): boolean {
  return (method === 'GET' || method === 'HEAD') && url?.startsWith('/') === true;
}
