import type { Server } from 'node:http';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { picturesFolder } from '#db/picturesFolder';
import { DataUnusable, openData, type OpenData } from './backup/openData';
import { noBackups } from './backup/noBackups';
import { makeOwnerLink } from './commands/makeOwnerLink';
import { beginBindingOfAll } from './commands/beginBinding';
import { seedSheets } from './commands/seedSheets';
import { createServer, type ServerOptions } from './createServer';
import { createDemo, type DemoServer } from './demo/createDemo';
import { createHub } from './live/hub';
import { inlineScripts } from './pages/inlineScripts';
import { removeBrokenOff } from './media/removeBrokenOff';
import { startIntake } from './media/startIntake';
import { nextPages } from './pages/nextPages';
import { systemRandom } from './random';
import { readSettings } from './readSettings';
import type { Runtime } from './runtime';
import { startReconciler } from './work/startReconciler';

// Whatever is written is for this account alone: data, backups, what SQLite puts beside its file (BL5).
process.umask(0o077);
const folder = process.cwd();
const settings = readSettings({ env: process.env, args: process.argv.slice(2), folder });
const { host, tls, development } = settings;
const clock = { now: () => Date.now() };
/** A statistics thread of its own for each, so that no visitor of the demo keeps an evaluation waiting. */
const reconciler = () => startReconciler(new URL('./reconcileWorker.js', import.meta.url));
const log = (line: string) => void process.stderr.write(`${line}\n`);

const pictures = startIntake(new URL('./intakeWorker.js', import.meta.url));

const shared = {
  pages: await nextPages(folder, development),
  scripts: development ? " 'unsafe-eval' 'unsafe-inline'" : inlineScripts(join(folder, '.next')),
  intake: pictures.intake,
  hosts: settings.hosts,
  requestId: systemRandom.id,
  log,
} satisfies Partial<ServerOptions>;

const data = openOrSayWhy();
const runtime: Runtime = {
  db: data.db,
  clock,
  random: systemRandom,
  hub: createHub(),
  reconciler: reconciler(),
  backups: data.backups,
  demo: null,
};
seedSheets(runtime);
beginBindingOfAll(runtime);
removeBrokenOff(picturesFolder(runtime.db));

const server = createServer({
  ...shared,
  tenancy: {
    runtimeFor: () => runtime,
    close: async () => {
      await runtime.reconciler.close();
      await data.close();
    },
  },
  // The prefix asks for Secure: people reach this server by TLS only, its own or that of the proxy in front.
  cookieName: tls !== null || settings.origin?.startsWith('https://') === true ? '__Host-evenstack' : 'evenstack',
  tls,
  origin: settings.origin,
  trustedProxy: settings.trustedProxy,
});

server.http.listen(settings.port, host, () => {
  const scheme = tls ? 'https' : 'http';
  const port = portOf(server.http);
  const link = `${scheme}://localhost:${port}/join#${makeOwnerLink(runtime)}`;
  process.stdout.write(`Evenstack is ready.\nOwner link, good for one use: ${link}\n`);
  for (const address of lanAddresses()) process.stdout.write(`On this network: ${scheme}://${address}:${port}\n`);
});

const demo = settings.demoPort === null ? null : listenAsDemo(settings.demoPort);

for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.once(signal, () => {
    // Whoever asks twice does not want to wait.
    process.once(signal, () => process.exit(1));
    void Promise.all([server.close(), demo?.close()]).then(() => {
      pictures.close();
      process.exit(0);
    });
  });
}

/** DE1: a second listener with its own data and cookie; neither server knows the other's. Always plain http. */
function listenAsDemo(port: number): { close(): Promise<void> } {
  const cookieName = 'evenstack_demo';
  const visits: DemoServer = createDemo({
    folder: join(settings.dataFolder, 'demo'),
    scenario: join(folder, 'fixtures', 'demo', 'scenario.json'),
    cookieName,
    around: { clock, random: systemRandom, reconciler: reconciler(), backups: noBackups },
    log,
  });
  const listener = createServer({ ...shared, tenancy: visits.tenancy, cookieName, tls: null, origin: null, trustedProxy: settings.trustedProxy });
  const { http } = listener;
  http.listen(port, host, () => {
    process.stdout.write(`Demo: http://localhost:${portOf(http)}/demo\n`);
    const here = host === '0.0.0.0' || host === '::' ? '127.0.0.1' : host;
    void visits.start(`http://${here}:${portOf(http)}`);
  });
  return {
    // The scripted seats first: they are clients of the listener.
    close: () => visits.tenancy.close().then(() => listener.close()),
  };
}

/** A start that cannot be ends with one sentence, before anything listens. */
function openOrSayWhy(): OpenData {
  try {
    return openData({ folder: settings.dataFolder, clock, worker: new URL('./backUpWorker.js', import.meta.url), log });
  } catch (error) {
    if (!(error instanceof DataUnusable)) throw error;
    log(error.message);
    process.exit(1);
  }
}

function portOf(http: Server): number {
  const address = http.address();
  return typeof address === 'object' && address ? address.port : 0;
}

/** Addresses under which telephones in the same network reach this machine. */
function lanAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address);
}
