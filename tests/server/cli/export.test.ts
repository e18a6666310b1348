import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { exportCommand } from '#server/cli/export';
import { fetchEvaluation, textOf, unzipped } from '#tests/support/carry';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-export-'));
  vi.stubEnv('EVENSTACK_DATA', folder);
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

async function run(...args: string[]): Promise<{ readonly status: number; readonly said: string }> {
  const lines: string[] = [];
  const status = await exportCommand(args, {
    answer: (line) => lines.push(line),
    complain: (line) => lines.push(line),
  });
  return { status, said: lines.join('\n') };
}

it('BL1: the command refuses what the page refuses, writes what the page gives, and never over a file', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const shown = await seedQuillmarsh(owner, { puppies: 2 });
  const open = await seedQuillmarsh(owner, { puppies: 2 });
  await playToReveal(shown);
  await open.owner.api.evaluation.openRound.mutate({ id: open.id });
  server.runtime.db.$client.exec(`VACUUM INTO '${join(folder, 'evenstack.db')}'`);
  const target = join(folder, 'out.zip');
  expect(await run(open.id, target)).toEqual({
    status: 1,
    said: 'Nothing of this evaluation is revealed yet. Nothing was written.',
  });
  expect(await run('f'.repeat(32), target)).toEqual({
    status: 1,
    said: 'There is no such evaluation. Nothing was written.',
  });
  expect((await run(shown.id)).status).toBe(2);
  expect(readdirSync(folder).filter((name) => name.endsWith('.zip'))).toEqual([]);
  expect((await run(shown.id, target)).status).toBe(0);
  expect(statSync(target).mode & 0o077).toBe(0);
  const written = textOf(await unzipped(readFileSync(target)));
  const given = textOf(await unzipped((await fetchEvaluation(owner, shown.id)).bytes));
  expect({ ...written, origin: { ...written.origin, at: 0 } }).toEqual({
    ...given,
    origin: { ...given.origin, at: 0 },
  });
  const before = readFileSync(target);
  expect((await run(shown.id, target)).status).toBe(1);
  expect(readFileSync(target).equals(before)).toBe(true);
});
