import { readdirSync, readFileSync } from 'node:fs';
import { getPriority } from 'node:os';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { pressImage } from '#server/media/pressImage';
import { startPress } from '#server/media/startPress';
import { plainPicture } from '#tests/support/sendPhoto';

let press: ReturnType<typeof startPress>;

beforeEach(() => {
  press = startPress(new URL('../../support/tsPressWorker.mjs', import.meta.url));
});

afterEach(() => press.close());

/** Processes that this one started and whose command line names the press. */
function pressProcesses(): number[] {
  const linesOf = (pid: string) => {
    try {
      return readFileSync(`/proc/${pid}/status`, 'utf8') + readFileSync(`/proc/${pid}/cmdline`, 'utf8');
    } catch {
      // It ended meanwhile.
      return '';
    }
  };
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((pid) => new RegExp(`PPid:\\s+${process.pid}\\n[\\s\\S]*tsPressWorker`).test(linesOf(pid)))
    .map(Number);
}

it('SC1: pictures are written anew in one process of their own that stands behind the server in every queue', async () => {
  const bytes = await plainPicture();
  const [first, second] = [await press.press(bytes), await press.press(bytes)];
  expect(first).toEqual(await pressImage(bytes));
  expect(second).toEqual(first);
  const pids = pressProcesses();
  expect(pids).toHaveLength(1);
  expect(getPriority(pids[0])).toBeGreaterThan(getPriority());
});

it('a picture that cannot be read is refused by the same word as within the process', async () => {
  await expect(press.press(Buffer.from('no picture at all'))).rejects.toMatchObject({ code: 'file-unreadable' });
});

it('a picture that ends the process is refused, and the next one is written by a new process', async () => {
  const bytes = await plainPicture();
  await press.press(bytes);
  const [before = 0] = pressProcesses();
  const refused = expect(press.press(bytes)).rejects.toMatchObject({ code: 'file-unreadable' });
  process.kill(before, 'SIGKILL');
  await refused;
  expect((await press.press(bytes)).width).toBeGreaterThan(0);
  expect(pressProcesses()).not.toContain(before);
});
