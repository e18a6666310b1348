import { and, asc, type Column, eq, gt, inArray, isNull, max, sql, type SQL } from 'drizzle-orm';
import type { Db } from '../open';
import { prepareOnce } from '../transaction';
import { device } from '../schema/devices';
import { deviceRequest } from '../schema/devices';

export type Device = {
  readonly id: string;
  readonly owner: boolean;
  readonly seatId: string | null;
  readonly createdAt: number;
  readonly seenAt: number;
  readonly generation: number;
  readonly cameBy: CameBy;
};
type CameBy = 'link' | 'code' | 'approval' | 'passphrase' | 'recovery';

const deviceRow = prepareOnce((db) =>
  db
    .select({
      id: device.id,
      owner: device.owner,
      seatId: device.seatId,
      createdAt: device.createdAt,
      seenAt: device.seenAt,
      generation: device.generation,
      cameBy: device.cameBy,
    })
    .from(device)
    .where(and(eq(device.tokenHash, sql.placeholder('tokenHash')), isNull(device.revokedAt)))
    .prepare(),
);

/** The device a cookie stands for; undefined when unknown or revoked. */
export function findDevice(db: Db, tokenHash: string): Device | undefined {
  const row = deviceRow(db).get({ tokenHash });
  return row && { ...row, owner: row.owner === 1 };
}

const sessionRow = prepareOnce((db) =>
  db
    .select({ id: device.id })
    .from(device)
    .where(and(eq(device.id, sql.placeholder('id')), isNull(device.revokedAt)))
    .prepare(),
);

/** Whether a device that was let in has not been ended since. */
export function hasSession(db: Db, id: string): boolean {
  return sessionRow(db).get({ id }) !== undefined;
}

type NewDevice = {
  readonly id: string;
  readonly tokenHash: string;
  readonly owner: boolean;
  readonly seatId: string | null;
  readonly createdAt: number;
  readonly cameBy?: CameBy;
  /** Of the device that let it in; left out, the seat is issued to this one. */
  readonly generation?: number;
};

/** A device with a session. One that no other device let in begins the seat's next generation (BL9). */
export function insertDevice(db: Db, { owner, generation, ...row }: NewDevice): void {
  const last =
    row.seatId === null
      ? undefined
      : db
          .select({ n: max(device.generation) })
          .from(device)
          .where(eq(device.seatId, row.seatId))
          .get();
  db.insert(device)
    .values({ ...row, owner: owner ? 1 : 0, seenAt: row.createdAt, generation: generation ?? (last?.n ?? 0) + 1 })
    .run();
}

/** The device was heard of just now. */
export function touchDevice(db: Db, id: string, at: number): void {
  db.update(device).set({ seenAt: at }).where(eq(device.id, id)).run();
}

/** The devices with a session of one seat, or of the owner (null), oldest first. */
export function listDevices(db: Db, seatId: string | null) {
  const of = seatId === null ? eq(device.owner, 1) : eq(device.seatId, seatId);
  return db
    .select({
      id: device.id,
      createdAt: device.createdAt,
      seenAt: device.seenAt,
      cameBy: device.cameBy,
      owner: device.owner,
    })
    .from(device)
    .where(and(of, isNull(device.revokedAt)))
    .orderBy(asc(device.createdAt), asc(device.id))
    .all()
    .map((row) => ({ ...row, owner: row.owner === 1 }));
}

export function revokeDevice(db: Db, id: string, at: number): void {
  db.update(device).set({ revokedAt: at }).where(eq(device.id, id)).run();
}

/** Ends every session of a seat; returns the devices that had one. */
export function revokeSeatDevices(db: Db, seatId: string, at: number): string[] {
  return db
    .update(device)
    .set({ revokedAt: at })
    .where(and(eq(device.seatId, seatId), isNull(device.revokedAt)))
    .returning({ id: device.id })
    .all()
    .map((row) => row.id);
}

type NewRequest = Pick<typeof deviceRequest.$inferInsert, 'id' | 'tokenHash' | 'digits' | 'askedAt' | 'expiresAt'> & {
  readonly seatId: string | null;
};

export function insertDeviceRequest(db: Db, row: NewRequest): void {
  db.insert(deviceRequest).values(row).run();
}

/** What a waiting device's own secret stands for. */
export function findDeviceRequest(db: Db, tokenHash: string) {
  return db
    .select({ digits: deviceRequest.digits, expiresAt: deviceRequest.expiresAt, approved: deviceRequest.approved })
    .from(deviceRequest)
    .where(eq(deviceRequest.tokenHash, tokenHash))
    .get();
}

type DeviceRequest = {
  readonly id: string;
  readonly tokenHash: string;
  readonly digits: string;
  readonly askedAt: number;
};

/** The devices that ask to be let in to one seat (null: the owner's) and have not been answered, oldest first. */
export function listDeviceRequests(
  db: Db,
  { seatId, now }: { readonly seatId: string | null; readonly now: number },
): DeviceRequest[] {
  const of = seatId === null ? isNull(deviceRequest.seatId) : eq(deviceRequest.seatId, seatId);
  return db
    .select({
      id: deviceRequest.id,
      tokenHash: deviceRequest.tokenHash,
      digits: deviceRequest.digits,
      askedAt: deviceRequest.askedAt,
    })
    .from(deviceRequest)
    .where(and(of, isNull(deviceRequest.answeredAt), gt(deviceRequest.expiresAt, now)))
    .orderBy(asc(deviceRequest.askedAt), asc(deviceRequest.id))
    .all();
}

export function answerDeviceRequest(
  db: Db,
  id: string,
  { approved, at }: { readonly approved: boolean; readonly at: number },
): void {
  db.update(deviceRequest)
    .set({ approved: approved ? 1 : 0, answeredAt: at })
    .where(eq(deviceRequest.id, id))
    .run();
}

/** Holds for what was made by this device or by one of the same issue of its seat: they let each other in, so they are one person (BL9). */
export function sameIssue(db: Db, made: Column, deviceId: string): SQL {
  const own = db
    .select({ seatId: device.seatId, generation: device.generation })
    .from(device)
    .where(eq(device.id, deviceId))
    .get();
  if (!own || own.seatId === null) return eq(made, deviceId);
  const issue = db
    .select({ id: device.id })
    .from(device)
    .where(and(eq(device.seatId, own.seatId), eq(device.generation, own.generation)));
  return inArray(made, issue);
}

/** Whether an owner ever had a session, ended ones included. */
export function ownerHasSignedIn(db: Db): boolean {
  return db.select({ id: device.id }).from(device).where(eq(device.owner, 1)).limit(1).get() !== undefined;
}
