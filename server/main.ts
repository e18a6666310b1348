import { readFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { open } from '#db/open';
import { makeOwnerLink } from './commands/makeOwnerLink';
import { seedSheets } from './commands/seedSheets';
import { createServer } from './createServer';
import { createHub } from './live/hub';
import { inlineScripts } from './pages/inlineScripts';
import { nextPages } from './pages/nextPages';
import { systemRandom } from './random';
import type { Runtime } from './runtime';
import { startReconciler } from './work/startReconciler';

const { values: flags } = parseArgs({
  options: { 'tls-cert': { type: 'string' }, 'tls-key': { type: 'string' } },
  strict: false,
});
const { PORT, HOST, EVENSTACK_DATA, EVENSTACK_ORIGIN } = process.env;
const folder = process.cwd();
const development = process.env.NODE_ENV !== 'production';
const certificate = flags['tls-cert'];
const key = flags['tls-key'];
const tls =
  typeof certificate === 'string' && typeof key === 'string'
    ? { cert: readFileSync(certificate, 'utf8'), key: readFileSync(key, 'utf8') }
    : null;

const runtime: Runtime = {
  db: open(join(EVENSTACK_DATA ?? join(folder, 'data'), 'evenstack.db')),
  clock: { now: () => Date.now() },
  random: systemRandom,
  hub: createHub(),
  reconciler: startReconciler(new URL('./reconcileWorker.js', import.meta.url)),
  demo: null,
};
seedSheets(runtime);

const server = createServer({
  tenancy: {
    runtimeFor: () => runtime,
    close: async () => {
      await runtime.reconciler.close();
      runtime.db.$client.close();
    },
  },
  pages: await nextPages(folder, development),
  scripts: development ? " 'unsafe-eval' 'unsafe-inline'" : inlineScripts(join(folder, '.next')),
  cookieName: tls ? '__Host-evenstack' : 'evenstack',
  tls,
  origin: EVENSTACK_ORIGIN ?? null,
  requestId: systemRandom.id,
  log: (line) => process.stderr.write(`${line}\n`),
});

server.http.listen(Number(PORT ?? 3000), HOST ?? '0.0.0.0', () => {
  const address = server.http.address();
  const port = typeof address === 'object' && address ? address.port : PORT;
  const scheme = tls ? 'https' : 'http';
  const link = `${scheme}://localhost:${port}/join#${makeOwnerLink(runtime)}`;
  process.stdout.write(`Evenstack is ready.\nOwner link, good for one use: ${link}\n`);
  for (const host of lanAddresses()) process.stdout.write(`On this network: ${scheme}://${host}:${port}\n`);
});

for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.once(signal, () => {
    void server.close().then(() => process.exit(0));
  });
}

/** Addresses under which telephones in the same network reach this machine. */
function lanAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address);
}
