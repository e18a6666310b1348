import { z } from 'zod';
import { listDeviceRequests } from '#db/queries/listDeviceRequests';
import { listDevices } from '#db/queries/listDevices';
import { devicesViewSchema } from '#lib/contract/sessionView';
import { memberProcedure } from '../trpc';

/** The devices of the asker's own seat, or of the owner, and those that ask to be let in. */
export const devices = memberProcedure
  .input(z.void())
  .output(devicesViewSchema)
  .query(({ ctx: { runtime, device } }) => {
    const seatId = device.owner ? null : device.seatId;
    return {
      devices: listDevices(runtime.db, seatId).map(({ id, createdAt, seenAt, cameBy }) => ({ id, createdAt, seenAt, cameBy, here: id === device.id })),
      asking: listDeviceRequests(runtime.db, { seatId, now: runtime.clock.now() }).map(({ id, digits, askedAt }) => ({ id, digits, askedAt })),
    };
  });
