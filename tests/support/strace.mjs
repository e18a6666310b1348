import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const advice =
  'No strace for the fault tests (Linux only). Install it (Debian: apt-get install strace) so that it is on the path.';

const works = () => spawnSync('strace', ['-V'], { stdio: 'ignore' }).status === 0;

function isDebian() {
  try {
    return /^ID="?debian"?$/m.test(readFileSync('/etc/os-release', 'utf8'));
  } catch {
    // No such file: another system.
    return false;
  }
}

/**
 * Finds the tracer that shows and spoils system calls; on Debian, as root, installs it.
 *
 * @throws {Error} saying what to install
 */
export function ensureStrace() {
  if (works()) return;
  if (!isDebian() || process.getuid?.() !== 0) throw new Error(advice);
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'strace']]) {
    const { status } = spawnSync('apt-get', args, {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
    if (status !== 0) throw new Error(`apt-get ${args.join(' ')} failed. ${advice}`);
  }
  if (!works()) throw new Error(advice);
}
