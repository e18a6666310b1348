import { spawnSync } from 'node:child_process';
import { accessSync, constants, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const namesOnPath = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

const isProgram = (path) => {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

/** @returns {string | undefined} the browser to test with: the one named by CHROMIUM_PATH, Debian's, or one on the path */
export function findChromium() {
  if (process.env.CHROMIUM_PATH) return isProgram(process.env.CHROMIUM_PATH) ? process.env.CHROMIUM_PATH : undefined;
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean);
  const candidates = [
    '/usr/bin/chromium',
    ...folders.flatMap((folder) => namesOnPath.map((name) => join(folder, name))),
  ];
  return candidates.find(isProgram);
}

export const isRoot = () => process.getuid?.() === 0;

function isDebian() {
  try {
    return /^ID="?debian"?$/m.test(readFileSync('/etc/os-release', 'utf8'));
  } catch {
    // No such file: another system.
    return false;
  }
}

const advice =
  'No Chromium for the browser tests. Install Chromium or Chrome (Debian: apt-get install chromium) so that it is on the path, or set CHROMIUM_PATH to it.';

/**
 * Finds the browser; on Debian, as root, installs it.
 *
 * @returns {string} its path
 * @throws {Error} saying what to install
 */
export function ensureChromium() {
  if (process.env.CHROMIUM_PATH && !findChromium())
    throw new Error(`CHROMIUM_PATH=${process.env.CHROMIUM_PATH} is no program that can be run.`);
  const found = findChromium();
  if (found !== undefined) return found;
  if (!isDebian() || !isRoot()) throw new Error(advice);
  console.log('Installing Chromium by apt-get …');
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    const { status } = spawnSync('apt-get', args, {
      stdio: 'inherit',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
    if (status !== 0) throw new Error(`apt-get ${args.join(' ')} failed. ${advice}`);
  }
  const installed = findChromium();
  if (installed === undefined) throw new Error(advice);
  return installed;
}
