import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { open } from '#db/open';
import { makeOwnerLink } from '#server/commands/owner';
import { seedSheets } from '#server/commands/setup';
import { examineFile } from '#server/carry/examineFile';
import { createServer } from '#server/createServer';
import type { Intake } from '#server/media/intake';
import { takeIn } from '#server/media/takeIn';
import { standardRates, type Rates } from '#server/limits';
import { createHub } from '#server/live/hub';
import { noBackups } from '#server/backup/backups';
import type { Random } from '#server/random';
import type { Runtime } from '#server/runtime';
import { testClient, type TestClient } from './testClient';
import { seededIds } from './seededIds';
import { sharedStatistics } from './sharedStatistics';

export type TestServer = {
  readonly url: string;
  readonly runtime: Runtime;
  /** Every line the server logged. */
  readonly logged: readonly string[];
  /** A stranger: a browser without a session. */
  stranger(): TestClient;
  owner(): Promise<TestClient>;
  /** Moves the injected clock on. */
  pass(milliseconds: number): void;
  [Symbol.asyncDispose](): Promise<void>;
};

type TestServerOptions = {
  readonly seed?: string;
  readonly random?: Random;
  /** A clock that stands still never refills a rate, so tests of other things have room. */
  readonly rates?: Rates;
  readonly trustedProxy?: string;
  /** Pictures are taken in here; a slower one shows what happens meanwhile. */
  readonly intake?: Intake;
};

const ample = { burst: 1_000_000, perSecond: 1 };
const roomyRates: Rates = { ...standardRates, writes: ample, coefficients: ample, demo: ample };

/** The real server on port 0 with a real data file, without pages; clock and ids are injected. Close it with `await using`. */
export async function startTestServer({
  seed = 'test',
  random = seededIds(seed),
  rates = roomyRates,
  trustedProxy,
  intake = takeIn,
}: TestServerOptions = {}): Promise<TestServer> {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-test-'));
  const logged: string[] = [];
  let now = Date.UTC(2026, 8, 12, 9, 0, 0);
  const runtime: Runtime = {
    db: open(join(folder, 'evenstack.db')),
    clock: { now: () => now },
    random,
    hub: createHub(),
    reconciler: sharedStatistics,
    backups: noBackups,
    demo: null,
  };
  seedSheets(runtime);
  const server = createServer({
    tenancy: { runtimeFor: () => runtime, close: () => runtime.reconciler.close() },
    pages: (_, response) => response.writeHead(404).end(),
    scripts: '',
    cookieName: 'evenstack',
    tls: null,
    origin: null,
    rates,
    ...(trustedProxy === undefined ? {} : { trustedProxy }),
    intake,
    examine: async (file) => examineFile(file),
    requestId: random.id,
    log: (line) => logged.push(line),
  });
  await new Promise<void>((ready) => server.http.listen(0, '127.0.0.1', ready));
  const address = server.http.address();
  if (typeof address !== 'object' || address === null) throw new Error('the test server has no address');
  const url = `http://127.0.0.1:${address.port}`;
  return {
    url,
    runtime,
    logged,
    stranger: () => testClient(url),
    owner: async () => {
      const client = testClient(url);
      await client.api.session.join.mutate({ token: makeOwnerLink(runtime) });
      return client;
    },
    pass: (milliseconds) => {
      now += milliseconds;
    },
    [Symbol.asyncDispose]: async () => {
      await server.close();
      runtime.db.$client.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
