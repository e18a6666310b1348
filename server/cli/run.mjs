// `npm run reconcile` and its kin. The output stream carries the command's own answer and nothing else.
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { buildBundle } from './build.mjs';
import { commands } from './commands.mjs';
import { ensureInstalled } from './install.mjs';
import { nodeComplaint } from './nodeVersion.mjs';
import { fromRoot } from './root.mjs';
import { endByFault, endByUncaughtFaults } from './step.mjs';

endByUncaughtFaults();

const [name = '', ...args] = process.argv.slice(2);

function complaint() {
  const known = commands.filter((command) => existsSync(fromRoot('server', 'cli', `${command}.ts`)));
  return known.includes(name)
    ? undefined
    : `There is no command "${name}". Commands: ${known.join(', ') || 'none yet'}.`;
}

/** Whoever reads our answer may stop early, as `head` does; that is no error. */
function endQuietlyWhenUnread() {
  process.stdout.on('error', (error) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit(0);
  });
}

async function runCommand() {
  await ensureInstalled();
  await buildBundle();
  process.setSourceMapsEnabled(true);
  const module = await import(pathToFileURL(fromRoot('dist', 'cli', `${name}.js`)).href);
  return module[`${name}Command`](args);
}

const tooOld = nodeComplaint(process.versions.node);
const obstacle = tooOld ?? complaint();
if (obstacle !== undefined) {
  console.error(obstacle);
  process.exitCode = tooOld === undefined ? 2 : 1;
} else {
  endQuietlyWhenUnread();
  try {
    process.exitCode = await runCommand();
  } catch (error) {
    endByFault(error);
  }
}
