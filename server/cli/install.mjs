import { statSync } from 'node:fs';
import { fromRoot } from './root.mjs';
import { runStep, say } from './step.mjs';

const changedAt = (...parts) => statSync(fromRoot(...parts), { throwIfNoEntry: false })?.mtimeMs;

/** npm leaves its own copy of the lock file in node_modules when, and only when, an install ran to its end. */
function isInstalled() {
  const installed = changedAt('node_modules', '.package-lock.json');
  return installed !== undefined && installed >= (changedAt('package-lock.json') ?? 0);
}

/** Started by npm, we call that same npm; otherwise the one on the path. */
function npm() {
  const script = process.env.npm_execpath;
  if (script !== undefined && script.endsWith('npm-cli.js')) return { command: process.execPath, first: [script], shell: false };
  return { command: 'npm', first: [], shell: process.platform === 'win32' };
}

/**
 * `npm ci` when something is missing or the lock file is newer than what is installed.
 *
 * @throws {import('./step.mjs').StepFailed}
 */
export async function ensureInstalled() {
  if (isInstalled()) return;
  say('Packages are missing or older than package-lock.json; installing them takes a minute or two.');
  say('Where no ready-made better-sqlite3 can be had it is compiled: 90 to 150 s more, and a C++ compiler, make and Python 3 are needed.');
  const { command, first, shell } = npm();
  // Building needs the compiler and the style tools too, whatever NODE_ENV says.
  await runStep({ title: 'npm ci', command, args: [...first, 'ci', '--include=dev', '--no-fund', '--no-audit'], shell });
}
