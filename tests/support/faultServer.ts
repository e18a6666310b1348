// A server of its own process for the fault tests: the real data, commands, API and sockets, without pages and statistics.
import { readsAndWrites } from '#db/open';
import { openData } from '#server/backup/openData';
import { createServer } from '#server/createServer';
import { examineFile } from '#server/carry/examineFile';
import { takeIn } from '#server/media/takeIn';
import { createHub } from '#server/live/hub';
import { systemRandom } from '#server/random';
import { dayRuntime } from './makeDay';

const [folder = '', port = '0'] = process.argv.slice(2);
const clock = { now: () => Date.now() };
const log = (line: string) => void process.stderr.write(`${line}\n`);
const data = openData({ folder, clock, worker: new URL('./backUpWorker.js', import.meta.url), log });
const runtime = dayRuntime(data.db, { clock, random: systemRandom, hub: createHub(), backups: data.backups });
const server = createServer({
  tenancy: { runtimeFor: () => runtime, close: () => data.close() },
  pages: (_, response) => response.writeHead(404).end(),
  scripts: '',
  cookieName: 'evenstack',
  tls: null,
  origin: null,
  ready: () => readsAndWrites(data.db),
  intake: takeIn,
  examine: async (file) => examineFile(file),
  requestId: systemRandom.id,
  log,
});
// Whoever started this holds the other end: a test that broke off leaves no server behind.
process.stdin.once('end', () => process.exit(1)).resume();
process.once('SIGTERM', () => void server.close().then(() => process.exit(0)));
server.http.listen(Number(port), '127.0.0.1', () => {
  const address = server.http.address();
  process.stdout.write(`listening on ${typeof address === 'object' && address ? address.port : 0} as ${process.pid}\n`);
});
