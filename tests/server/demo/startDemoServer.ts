import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createServer } from '#server/createServer';
import { examineFile } from '#server/carry/examineFile';
import { takeIn } from '#server/media/takeIn';
import type { Pace } from '#server/demo/cast';
import { noBackups } from '#server/backup/backups';
import { createDemo, type DemoServer } from '#server/demo/createDemo';
import { standardRates } from '#server/limits';
import { systemRandom } from '#server/random';
import { sharedStatistics } from '#tests/support/sharedStatistics';
import { testClient, type TestClient } from '#tests/support/testClient';

export type TestDemo = {
  readonly url: string;
  /** Where the copies lie. */
  readonly folder: string;
  readonly demo: DemoServer;
  readonly logged: readonly string[];
  stranger(): TestClient;
  /** Moves the injected clock on. */
  pass(milliseconds: number): void;
  /** Stops the server and leaves the copies where they are. */
  stop(): Promise<void>;
  [Symbol.asyncDispose](): Promise<void>;
};

type TestDemoOptions = {
  readonly folder?: string;
  readonly pace?: Pace;
  readonly mostVisitors?: number;
  readonly mostOfOneAddress?: number;
  readonly trustedProxy?: string;
  readonly now?: number;
};

/** Casts stand still, so that a test sees only what it asked for. */
export const stillPace: Pace = { beatMilliseconds: 3_600_000, entriesAMove: 2, patienceBeats: 2 };
export const quickPace: Pace = { beatMilliseconds: 5, entriesAMove: 25, patienceBeats: 4 };

/** Templates made by an earlier server of the same test file; making one takes seconds. */
const kept = mkdtempSync(join(tmpdir(), 'evenstack-template-'));
process.once('exit', () => rmSync(kept, { recursive: true, force: true }));

function copyTemplates(from: string, to: string): void {
  if (!existsSync(from)) return;
  mkdirSync(to, { recursive: true });
  for (const name of readdirSync(from)) if (name.endsWith('.db')) copyFileSync(join(from, name), join(to, name));
}

/** The demo on port 0 with its data in a folder of its own, without pages; the clock is injected. Close it with `await using`. */
export async function startDemoServer({
  folder,
  pace = stillPace,
  mostVisitors,
  mostOfOneAddress,
  trustedProxy,
  now: start,
}: TestDemoOptions = {}): Promise<TestDemo> {
  const place = folder ?? join(mkdtempSync(join(tmpdir(), 'evenstack-demo-')), 'demo');
  copyTemplates(kept, place);
  const logged: string[] = [];
  let now = start ?? Date.UTC(2026, 8, 12, 9, 0, 0);
  const demo = createDemo({
    folder: place,
    scenario: 'fixtures/demo/scenario.json',
    cookieName: 'evenstack_demo',
    around: { clock: { now: () => now }, random: systemRandom, reconciler: sharedStatistics, backups: noBackups },
    log: (line) => logged.push(line),
    pace,
    ...(mostVisitors === undefined ? {} : { mostVisitors }),
    ...(mostOfOneAddress === undefined ? {} : { mostOfOneAddress }),
  });
  const server = createServer({
    tenancy: demo.tenancy,
    pages: (_, response) => response.writeHead(404).end(),
    scripts: '',
    cookieName: 'evenstack_demo',
    tls: null,
    origin: null,
    // The clock stands still, and a rate with it.
    rates: { ...standardRates, writes: { burst: 1_000_000, perSecond: 1 }, demo: { burst: 1_000_000, perSecond: 1 } },
    ...(trustedProxy === undefined ? {} : { trustedProxy }),
    intake: takeIn,
    examine: async (file) => examineFile(file),
    requestId: systemRandom.id,
    log: (line) => logged.push(line),
  });
  await new Promise<void>((ready) => server.http.listen(0, '127.0.0.1', ready));
  const address = server.http.address();
  if (typeof address !== 'object' || address === null) throw new Error('the demo has no address');
  const url = `http://127.0.0.1:${address.port}`;
  await demo.start(url);
  const stop = async () => {
    await demo.tenancy.close();
    await server.close();
    copyTemplates(place, kept);
  };
  return {
    url,
    folder: place,
    demo,
    logged,
    stranger: () => testClient(url),
    pass: (milliseconds) => {
      now += milliseconds;
    },
    stop,
    [Symbol.asyncDispose]: async () => {
      await stop();
      rmSync(place, { recursive: true, force: true });
    },
  };
}
