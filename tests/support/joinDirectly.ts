import { insertDevice } from '#db/queries/devices';
import { saveSeat } from '#db/queries/seats';
import type { SeatInput } from '#lib/contract/setup';
import { hashToken, systemRandom } from '#server/random';
import type { TestServer } from './startTestServer';
import { testClient, type TestClient } from './testClient';

/** A further seat with a device in it, at whatever stage: put into the data file, because the app adds none after the round has closed. */
export function joinDirectly({ runtime: { db }, url }: TestServer, evaluationId: string, seat: SeatInput): TestClient {
  const id = systemRandom.id();
  const secret = systemRandom.token();
  saveSeat(db, { id, evaluationId, owner: false, input: { organises: false, reads: false, ...seat } });
  insertDevice(db, {
    id: systemRandom.id(),
    tokenHash: hashToken(secret),
    owner: false,
    seatId: id,
    createdAt: Date.UTC(2026, 8, 12, 9),
  });
  return testClient(url, `evenstack=${secret}`);
}
