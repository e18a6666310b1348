// `npm run dev`: the same server with pages rebuilt on the fly. It runs the bundle rather than the sources, because a worker
// thread cannot be started from TypeScript, and starts it again whenever the server's sources change.
import { spawn } from 'node:child_process';
import { forget } from './freshness.mjs';
import { ensureInstalled } from './install.mjs';
import { stopWithNpm } from './npmParent.mjs';
import { fromRoot } from './root.mjs';
import { endByUncaughtFaults, say } from './step.mjs';

endByUncaughtFaults();
process.chdir(fromRoot());
stopWithNpm();
await ensureInstalled();
// Only now: it imports a package.
const { bundle } = await import('./bundle.mjs');
// What the watch leaves in dist/ has no stamp; the next `npm start` builds for itself.
forget('bundle');

let server;
let leaving = false;

function startServer() {
  server = spawn(process.execPath, ['--enable-source-maps', fromRoot('dist', 'main.js'), ...process.argv.slice(2)], {
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'development', NEXT_TELEMETRY_DISABLED: '1' },
  });
  server.once('exit', (code) => {
    server = undefined;
    if (leaving) process.exit(code ?? 0);
    say(`The server ended (${code ?? 'by a signal'}); it starts again at the next change.`);
  });
}

function restartServer() {
  if (server === undefined) return startServer();
  server.removeAllListeners('exit');
  server.once('exit', startServer);
  server.kill('SIGTERM');
}

const stopWatching = await bundle({ dev: true, onBuilt: (ok) => ok && restartServer() });

for (const signal of ['SIGINT', 'SIGTERM']) {
  process.on(signal, async () => {
    leaving = true;
    await stopWatching();
    if (server === undefined) process.exit(0);
    server.kill(signal);
  });
}
