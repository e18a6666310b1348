import type { IncomingMessage } from 'node:http';
import type { Device } from '#db/queries/devices';
import { protocolHeader, protocolVersion } from '#lib/contract/wire';
import { DomainError } from '#lib/errors';
import type { Limits } from '../limits';
import type { Runtime } from '../runtime';

/** What a procedure knows of its request. */
export type Context = {
  readonly runtime: Runtime;
  readonly device: Device | null;
  /** Hash of the secret that the browser sent, whatever it is worth; null without one. */
  readonly secretHash: string | null;
  /** Made by the page before it sent the call, the same when it sends it again; null where it made none. */
  readonly callId: string | null;
  /** The protocol version of the page that sent the call, as it says it; null where nothing is said. */
  readonly pageVersion: string | null;
  readonly limits: Limits;
  /** Whom the request comes from, for limits only: an address, or the network it lies in. */
  readonly address: string;
  /** For the log beside an unknown error, and for the person who reports it. */
  readonly requestId: string;
  /** Gives the browser its session, for as long as that may live; an empty secret ends it. */
  setSession(secret: string, milliseconds?: number): void;
  /** Writes one line for the people who run the server: never a score, never a secret. */
  log(line: string): void;
};

export function pageVersionIn({ headers }: Pick<IncomingMessage, 'headers'>): string | null {
  return headers[protocolHeader]?.toString() ?? null;
}

/** A change is taken only from a page that speaks as this server does. Whoever says no version is no page of ours, and is read as it comes. */
export function refuseOtherVersion({ pageVersion }: Pick<Context, 'pageVersion'>): void {
  if (pageVersion !== null && pageVersion !== String(protocolVersion))
    throw new DomainError('other-version', { version: protocolVersion });
}
