import type { IncomingMessage, Server as HttpServer } from 'node:http';
import { Server, type Socket } from 'socket.io';
import type { LiveEvent } from '#lib/contract/liveEvent';
import type { Announcement, Hub } from './hub';

/** What a socket may hear, settled when it opens; it says nothing itself: all writes go over HTTP. */
export type Membership = {
  readonly hub: Hub;
  readonly deviceId: string;
  wants(announcement: Announcement): boolean;
  /** Whether the session's whole time is up. */
  over(): boolean;
};

/** A device shows a few pages at once; what is above that is a fault or a flood. */
const mostSockets = 5;

export type SocketOptions = {
  readonly allowed: (request: IncomingMessage) => boolean;
  /** Null for a request without a session. */
  readonly admit: (request: IncomingMessage) => Membership | null;
};

/** What goes out, field by field: whatever else an event might carry stays here. */
function bare({ evaluation, audience, phase, version, table }: LiveEvent): LiveEvent {
  return { evaluation, audience, phase, version, table };
}

/**
 * Sockets as doorbells (BL3). Connection-state recovery stays off: it would bring back rooms and packets that a device
 * no longer has a right to; a returning client catches up by version instead. Short pings, so that a dead link shows soon.
 */
export function attachSocketIo(http: HttpServer, { allowed, admit }: SocketOptions): { close(): Promise<void> } {
  const io = new Server(http, {
    serveClient: false,
    pingInterval: 5000,
    pingTimeout: 4000,
    maxHttpBufferSize: 65_536,
    allowRequest: (request, decide) => decide(null, allowed(request) && admit(request) !== null),
  });
  const open = new Map<string, Socket[]>();
  io.on('connection', (socket) => {
    const membership = admit(socket.request);
    if (!membership) {
      socket.disconnect(true);
      return;
    }
    const mine = [...(open.get(membership.deviceId) ?? []), socket];
    open.set(membership.deviceId, mine);
    // The oldest goes, not the newest: a phone whose link drops comes back before the server has missed it.
    if (mine.length > mostSockets) mine[0]?.disconnect(true);
    const silence = membership.hub.subscribe((announcement) => {
      if (membership.over()) socket.disconnect(true);
      else if (membership.wants(announcement)) socket.emit('changed', bare(announcement.event));
    });
    const stay = membership.hub.onDismiss((deviceId) => {
      if (deviceId === membership.deviceId) socket.disconnect(true);
    });
    socket.on('disconnect', () => {
      silence();
      stay();
      const left = (open.get(membership.deviceId) ?? []).filter((one) => one !== socket);
      if (left.length > 0) open.set(membership.deviceId, left);
      else open.delete(membership.deviceId);
    });
  });
  return { close: () => io.close() };
}
