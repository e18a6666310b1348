import { setSourceMapsEnabled } from 'node:process';
import { pathToFileURL } from 'node:url';
import { buildBundle, buildPages } from './build.mjs';
import { dataFolderComplaint } from './dataFolder.mjs';
import { ensureInstalled } from './install.mjs';
import { stopWithNpm } from './npmParent.mjs';
import { portComplaint } from './port.mjs';
import { fromRoot } from './root.mjs';
import { StepFailed } from './step.mjs';

/** The demo has its own listener, one port up; where the system picks the port (0) it picks the demo's too. */
const followingPort = (port) => (port === '0' ? '0' : String(Number(port) + 1));

/** The first thing in the way, told before minutes go into installing and building. */
async function obstacle() {
  const folder = dataFolderComplaint(process.env.EVENSTACK_DATA ?? fromRoot('data'));
  if (folder !== undefined) return folder;
  const { PORT: port = '3000', HOST: host, DEMO_PORT: demoPort = followingPort(port) } = process.env;
  return (
    (await portComplaint({ port, name: 'PORT', host })) ??
    (demoPort === 'off' ? undefined : portComplaint({ port: demoPort, name: 'DEMO_PORT', host }))
  );
}

/**
 * Installs and builds what is missing or stale, then runs the server in this very process, so that signals, the exit code
 * and the command line reach it untouched.
 */
export async function launch() {
  process.chdir(fromRoot());
  stopWithNpm();
  const complaint = await obstacle();
  if (complaint !== undefined) {
    console.error(complaint);
    process.exitCode = 1;
    return;
  }
  try {
    await ensureInstalled();
    await buildPages();
    await buildBundle();
  } catch (error) {
    if (!(error instanceof StepFailed)) throw error;
    console.error(error.message);
    process.exitCode = error.exitCode;
    return;
  }
  process.env.NODE_ENV = 'production';
  process.env.NEXT_TELEMETRY_DISABLED = '1';
  setSourceMapsEnabled(true);
  // From here on the server itself says in one line why it cannot start.
  await import(pathToFileURL(fromRoot('dist', 'main.js')).href);
}
