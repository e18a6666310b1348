import { io, type Socket } from 'socket.io-client';
import type { TestClient } from './testClient';

/** A connected socket of this client; resolves once it is open, rejects when it is refused. */
export async function listenLive(client: TestClient): Promise<Socket> {
  const socket = io(client.url, {
    transports: ['websocket'],
    reconnection: false,
    forceNew: true,
    extraHeaders: { cookie: client.cookie(), origin: client.url },
  });
  await new Promise<void>((ready, refuse) => {
    socket.on('connect', () => ready());
    socket.on('connect_error', refuse);
  });
  return socket;
}

/** Waits for the server to cut it; how long that took, in milliseconds. */
export async function untilCut(socket: Socket): Promise<number> {
  const from = performance.now();
  if (socket.connected) await new Promise<void>((cut) => socket.once('disconnect', () => cut()));
  return performance.now() - from;
}
