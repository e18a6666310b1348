import type { Server } from 'node:http';
import { join } from 'node:path';
import { readsAndWrites } from '#db/open';
import { picturesFolder } from '#db/picturesFolder';
import { ownerHasSignedIn } from '#db/queries/devices';
import { networkAddresses, noteServing, originsOf, ownerLinkLines } from './addresses';
import { openData } from './backup/openData';
import { noBackups } from './backup/backups';
import { makeOwnerLink } from './commands/owner';
import { beginBindingOfAll, seedSheets } from './commands/setup';
import { examineInThread } from './carry/examine';
import { removeArrivals } from './carry/importEvaluation';
import { createServer, type ServerOptions } from './createServer';
import { createDemo } from './demo/createDemo';
import { createEnding } from './ending';
import { createHub } from './live/hub';
import { inlineScripts, nextPages } from './pages/nextPages';
import { removeBrokenOff, startIntake } from './media/startIntake';
import { systemRandom } from './random';
import { readSettings, type Settings } from './readSettings';
import type { Runtime } from './runtime';
import { startFault } from './startFault';
import { startReconciler } from './work/startReconciler';

// Whatever is written is for this account alone: data, backups, what SQLite puts beside its file (BL5).
process.umask(0o077);
const folder = process.cwd();
const clock = { now: () => Date.now() };
const log = (line: string) => void process.stderr.write(`${line}\n`);
const say = (lines: readonly string[]) => void process.stdout.write(lines.map((line) => `${line}\n`).join(''));
const ending = createEnding({ exit: (code) => process.exit(code), log, patience: 10_000 });

// Whoever reads these lines may go away; serving goes on.
for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.once(signal, () => {
    // Whoever asks twice does not want to wait.
    process.once(signal, () => process.exit(1));
    void ending.end(0);
  });
}
// After a fault that nobody caught, nobody knows what state things are in: the data are closed and the process ends.
for (const event of ['uncaughtException', 'unhandledRejection'] as const) {
  process.on(
    event,
    (fault: unknown) =>
      void ending.end(1, `fault: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}`),
  );
}

try {
  await serve(readSettings({ env: process.env, args: process.argv.slice(2), folder }));
} catch (error) {
  await ending.end(1, startFault(error));
}

/** Opens the data, then the pages, and listens only when both are there. A start that cannot be is thrown, and what is open by then is closed. */
async function serve(settings: Settings): Promise<void> {
  const { host, tls, origin } = settings;
  const data = openData({
    folder: settings.dataFolder,
    clock,
    worker: new URL('./backUpWorker.js', import.meta.url),
    log,
    fresh: settings.fresh,
  });
  ending.add(() => data.close());
  // What a server that died has left.
  noteServing(settings.dataFolder, []);
  const runtime: Runtime = {
    db: data.db,
    clock,
    random: systemRandom,
    hub: createHub(),
    reconciler: reconciler(),
    backups: data.backups,
    demo: null,
  };
  ending.add(() => runtime.reconciler.close());
  seedSheets(runtime);
  beginBindingOfAll(runtime);
  removeBrokenOff(picturesFolder(runtime.db));
  removeArrivals(runtime.db);
  const shared = await sharedParts(settings);
  const server = createServer({
    ...shared,
    // What it stands on is closed after it, by the ending.
    tenancy: { runtimeFor: () => runtime, close: async () => undefined },
    // The prefix asks for Secure: people reach this server by TLS only, its own or that of the proxy in front.
    cookieName: tls !== null || origin?.startsWith('https://') === true ? '__Host-evenstack' : 'evenstack',
    tls,
    origin,
    trustedProxy: settings.trustedProxy,
    ready: () => readsAndWrites(data.db),
  });
  ending.add(() => server.close());
  const port = await listen(server.http, settings.port, host);
  const origins = originsOf({ settings, port, network: networkAddresses() });
  ending.add(noteServing(settings.dataFolder, origins));
  const demoPort = settings.demoPort === null ? null : await listenAsDemo(settings, settings.demoPort, shared);
  say([
    `Evenstack is ready: ${origins[0] ?? ''}`,
    ...origins.slice(1).map((one) => `On this network: ${one}`),
    ...ownerLines(runtime, origins),
  ]);
  if (demoPort !== null) say([`Demo: http://localhost:${demoPort}/demo`]);
}

/** A link to sign in by only while no owner ever has: later ones are asked for, and no log collects them. */
function ownerLines(runtime: Runtime, origins: readonly string[]): string[] {
  if (ownerHasSignedIn(runtime.db))
    return ['The owner has signed in before. A fresh link for another device: npm run -s owner-link'];
  return ownerLinkLines(origins, makeOwnerLink(runtime));
}

/** A statistics thread of its own for each, so that no visitor of the demo keeps an evaluation waiting. */
function reconciler() {
  return startReconciler(new URL('./reconcileWorker.js', import.meta.url));
}

/** What the server and the demo have in common. */
async function sharedParts({ development, hosts }: Settings) {
  const pictures = startIntake(new URL('./intakeWorker.js', import.meta.url));
  ending.add(() => pictures.close());
  return {
    pages: await nextPages(folder, development),
    scripts: development ? " 'unsafe-eval' 'unsafe-inline'" : inlineScripts(join(folder, '.next')),
    intake: pictures.intake,
    examine: examineInThread(new URL('./examineWorker.js', import.meta.url)),
    hosts,
    requestId: systemRandom.id,
    log,
  } satisfies Partial<ServerOptions>;
}

/** DE1: a second listener with its own data and cookie; neither server knows the other's. Always plain http. Answers the port. */
async function listenAsDemo(
  { host, dataFolder, trustedProxy }: Settings,
  wanted: number,
  shared: Awaited<ReturnType<typeof sharedParts>>,
): Promise<number> {
  const cookieName = 'evenstack_demo';
  const visits = createDemo({
    folder: join(dataFolder, 'demo'),
    scenario: join(folder, 'fixtures', 'demo', 'scenario.json'),
    cookieName,
    around: { clock, random: systemRandom, reconciler: reconciler(), backups: noBackups },
    log,
  });
  const listener = createServer({
    ...shared,
    tenancy: visits.tenancy,
    cookieName,
    tls: null,
    origin: null,
    trustedProxy,
  });
  // The scripted seats first: they are clients of the listener.
  ending.add(() => visits.tenancy.close().then(() => listener.close()));
  const port = await listen(listener.http, wanted, host);
  const here = host === '0.0.0.0' || host === '::' ? '127.0.0.1' : host;
  void visits.start(`http://${here}:${port}`);
  return port;
}

/** Answers the port, which the system picks for 0. Throws when it cannot be had. */
function listen(http: Server, port: number, host: string): Promise<number> {
  return new Promise((resolve, reject) => {
    http.once('error', reject);
    http.listen(port, host, () => {
      http.off('error', reject);
      const address = http.address();
      resolve(typeof address === 'object' && address ? address.port : port);
    });
  });
}
