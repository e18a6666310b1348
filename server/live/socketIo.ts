import type { IncomingMessage, Server as HttpServer } from 'node:http';
import { Server } from 'socket.io';
import type { Announcement, Hub } from './hub';

/** What a socket may hear, settled when it opens; it says nothing itself: all writes go over HTTP. */
export type Membership = { readonly hub: Hub; readonly deviceId: string; wants(announcement: Announcement): boolean };

export type SocketOptions = {
  readonly allowed: (request: IncomingMessage) => boolean;
  /** Null for a request without a session. */
  readonly admit: (request: IncomingMessage) => Membership | null;
};

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
  io.on('connection', (socket) => {
    const membership = admit(socket.request);
    if (!membership) {
      socket.disconnect(true);
      return;
    }
    const silence = membership.hub.subscribe((announcement) => {
      if (membership.wants(announcement)) socket.emit('changed', announcement.event);
    });
    const stay = membership.hub.onDismiss((deviceId) => {
      if (deviceId === membership.deviceId) socket.disconnect(true);
    });
    socket.on('disconnect', () => {
      silence();
      stay();
    });
  });
  return { close: () => io.close() };
}
