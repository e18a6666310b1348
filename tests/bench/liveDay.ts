import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { io, type Socket } from 'socket.io-client';
import { liveEventSchema, type LiveEvent } from '#lib/contract/liveEvent';
import { makeDayFile, type Day } from '#tests/support/makeDay';
import { startApp, type App } from '#tests/support/startApp';
import { scoreSender, type ScoreSender } from '#tests/support/submitScores';

export const liveSeats = 12;
export const liveViewers = 40;

/** A doorbell as one socket heard it. */
type Ring = LiveEvent & { readonly listener: number; readonly seatId: string; readonly at: number };

export type LiveDay = {
  readonly day: Day;
  readonly app: App;
  /** One for each seat, the owner's first. */
  readonly senders: readonly (ScoreSender & { readonly seatId: string })[];
  readonly sockets: readonly { readonly socket: Socket; readonly seatId: string }[];
  onRing(heard: (ring: Ring) => void): void;
  end(): Promise<void>;
};

/** The built app as a process of its own, with twelve seats that score and forty devices more that listen. */
export async function startLiveDay(): Promise<LiveDay> {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-live-'));
  // Five devices a seat: the first scores, and of the rest forty listen.
  const day = makeDayFile(
    join(folder, 'evenstack.db'),
    { seats: liveSeats - 1, devicesPerSeat: 5, puppies: 9 },
    Date.now(),
  );
  const app = await startApp({ data: folder });
  const url = app.url.replace('localhost', '127.0.0.1');
  const scorers = day.devices.filter((_, place) => place % 5 === 0);
  const viewers = day.devices.filter((_, place) => place % 5 !== 0).slice(0, liveViewers);
  const senders = scorers.map((device) => ({ ...scoreSender(url, day, device), seatId: device.seatId }));
  const sockets = [...scorers, ...viewers].map(({ secret, seatId }) => ({
    seatId,
    socket: io(url, {
      transports: ['websocket'],
      forceNew: true,
      extraHeaders: { cookie: `evenstack=${secret}`, origin: url },
    }),
  }));
  await Promise.all(
    sockets.map(
      ({ socket }) =>
        new Promise<void>((resolve) => (socket.connected ? resolve() : void socket.once('connect', resolve))),
    ),
  );
  return {
    day,
    app,
    senders,
    sockets,
    onRing: (heard) => {
      for (const [listener, { socket, seatId }] of sockets.entries()) {
        socket.on('changed', (event: unknown) => {
          const at = performance.now();
          heard({ ...liveEventSchema.parse(event), listener, seatId, at });
        });
      }
    },
    end: async () => {
      for (const { socket } of sockets) socket.close();
      await app[Symbol.asyncDispose]();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
