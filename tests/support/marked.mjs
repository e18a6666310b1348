import { readdirSync, readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** The name under which every process of a run carries the run's mark in its environment. */
export const markName = 'EVENSTACK_TEST_RUN';
/** Long enough for a server to close its file, in milliseconds. */
const grace = 5000;

const environmentOf = (pid) => {
  try {
    return readFileSync(`/proc/${pid}/environ`, 'utf8');
  } catch {
    // It ended meanwhile, or belongs to somebody else.
    return '';
  }
};

/** Processes that carry the mark, whatever group or parent they have by now; none where there is no /proc. */
function marked(mark) {
  try {
    return readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name) && environmentOf(name).includes(mark))
      .map(Number);
  } catch {
    return [];
  }
}

function signalAll(mark, signal) {
  const found = marked(mark).filter((pid) => pid !== process.pid);
  for (const pid of found) {
    try {
      process.kill(pid, signal);
    } catch (error) {
      // Gone already is what we want.
      if (error.code !== 'ESRCH') throw error;
    }
  }
  return found.length;
}

/** Asks every process that carries the mark to end, and kills those that do not. */
export async function endMarked(mark) {
  const until = Date.now() + grace;
  for (let left = signalAll(mark, 'SIGTERM'); left > 0 && Date.now() < until; left = signalAll(mark, 0)) await wait(50);
  // One that was being started may have been missed.
  while (signalAll(mark, 'SIGKILL') > 0) await wait(20);
}

// As a program: holds on to its input until whoever started it is gone, however that came, then ends what is left.
if (process.argv[1] === import.meta.filename) {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => undefined);
  process.stdin.resume();
  process.stdin.once('close', () => void endMarked(process.argv[2]));
}
