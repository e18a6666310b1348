import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { getPriority, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { removeBrokenOff, startIntake } from '#server/media/startIntake';
import { takeIn } from '#server/media/takeIn';
import { plainPicture } from '#tests/support/sendPhoto';

const intakeModule = new URL('../../support/tsIntakeWorker.mjs', import.meta.url);
/** Milliseconds; a picture is written behind everything else in the queue, and other tests run beside this one. */
const patient = () => 600_000;
let pictures: ReturnType<typeof startIntake>;
let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-intake-'));
  pictures = startIntake(intakeModule, patient);
});

afterEach(() => {
  pictures.close();
  rmSync(folder, { recursive: true, force: true });
});

function upload(bytes: Uint8Array, file = 'large') {
  const path = join(folder, `${file}.upload`);
  writeFileSync(path, bytes);
  return { path, folder, file, thumb: `${file}-small` };
}

/** Processes that this one started and whose command line names the intake. */
function intakeProcesses(): number[] {
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
    .filter((pid) => new RegExp(`PPid:\\s+${process.pid}\\n[\\s\\S]*tsIntakeWorker`).test(linesOf(pid)))
    .map(Number);
}

it('SC1: pictures are written anew in one process of their own that stands behind the server in every queue', async () => {
  const bytes = await plainPicture();
  const [first, second] = [await pictures.intake(upload(bytes, 'a')), await pictures.intake(upload(bytes, 'b'))];
  expect(first).toEqual(await takeIn(upload(bytes, 'c')));
  expect(second).toEqual(first);
  for (const name of ['a', 'b'])
    expect(readFileSync(join(folder, name)).equals(readFileSync(join(folder, 'c')))).toBe(true);
  const pids = intakeProcesses();
  expect(pids).toHaveLength(1);
  expect(getPriority(pids[0])).toBeGreaterThan(getPriority());
});

it('what cannot be read is refused by the same word as within the process, and a fault of the disk keeps its code', async () => {
  await expect(pictures.intake(upload(Buffer.from('\xff\xd8\xff no picture', 'latin1')))).rejects.toMatchObject({
    code: 'file-unreadable',
  });
  await expect(pictures.intake(upload(Buffer.from('letters')))).rejects.toMatchObject({ code: 'file-kind' });
  mkdirSync(join(folder, 'held.part'));
  await expect(pictures.intake(upload(await plainPicture(), 'held'))).rejects.toMatchObject({ code: 'EISDIR' });
});

it('a picture that ends the process is refused, and the next one is written by a new process', async () => {
  const bytes = await plainPicture();
  await pictures.intake(upload(bytes));
  const [before = 0] = intakeProcesses();
  const refused = expect(pictures.intake(upload(bytes))).rejects.toMatchObject({ code: 'file-unreadable' });
  process.kill(before, 'SIGKILL');
  await refused;
  expect((await pictures.intake(upload(bytes))).width).toBeGreaterThan(0);
  expect(intakeProcesses()).not.toContain(before);
});

it('a picture that gets no processor is put off, not refused, and the next one is written by a new process', async () => {
  const bytes = await plainPicture();
  let patience = 600_000;
  const impatient = startIntake(intakeModule, () => patience);
  try {
    await impatient.intake(upload(bytes));
    const [before = 0] = intakeProcesses();
    process.kill(before, 'SIGSTOP');
    patience = 100;
    await expect(impatient.intake(upload(bytes))).rejects.toMatchObject({ code: 'busy' });
    patience = 600_000;
    expect((await impatient.intake(upload(bytes))).width).toBeGreaterThan(0);
  } finally {
    impatient.close();
  }
});

it('a stop meant for the server alone leaves the picture under way to it', async () => {
  const bytes = await plainPicture();
  await pictures.intake(upload(bytes));
  const [pid = 0] = intakeProcesses();
  const written = pictures.intake(upload(bytes));
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.kill(pid, signal);
  expect((await written).width).toBeGreaterThan(0);
});

it('SC3: a start removes uploads that were broken off, and no whole picture', () => {
  removeBrokenOff(join(folder, 'none'));
  for (const name of ['whole', 'half.part', 'half.upload']) writeFileSync(join(folder, name), '');
  removeBrokenOff(folder);
  expect(readdirSync(folder)).toEqual(['whole']);
});
