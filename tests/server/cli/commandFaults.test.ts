import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildBundle } from '../../../server/cli/build.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'evenstack-command-'));

beforeAll(buildBundle);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a program in surroundings that break as `fault` says. */
async function run(program: readonly string[], fault: string) {
  const preload = join(folder, 'fault.mjs');
  writeFileSync(preload, `import { isMainThread } from 'node:worker_threads'; if (isMainThread) { ${fault} }`);
  const child = spawn(process.execPath, ['--import', pathToFileURL(preload).href, ...program], {
    cwd: root,
    env: { ...process.env, EVENSTACK_DATA: folder },
  });
  let [said, complained] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (complained += text));
  await once(child, 'close');
  return { code: child.exitCode, said, complained };
}

const words = "throw new Error('nobody\\n  foresaw this')";
const command = (name: string, ...args: string[]) => ['server/cli/run.mjs', name, ...args];

it('a fault in the midst of a command that nobody foresaw is one line, and the command ends with 1', async () => {
  const ended = await run(command('verify', 'none.db'), `process.stdout.write = () => { ${words}; };`);
  expect(ended).toEqual({ code: 1, said: '', complained: 'Evenstack could not go on: nobody foresaw this\n' });
});

it.each(['throw', 'reject'])(
  'a fault that nobody caught while a command runs (%s) is one line, and the command ends with 1',
  async (how) => {
    const later = how === 'throw' ? words : `Promise.reject(new Error('nobody\\n  foresaw this'))`;
    const { code, complained } = await run(
      command('verify', 'none.db'),
      `const { write } = process.stdout; process.stdout.write = (...all) => { setImmediate(() => { ${later}; }); return write.apply(process.stdout, all); };`,
    );
    expect({ code, complained }).toEqual({ code: 1, complained: 'Evenstack could not go on: nobody foresaw this\n' });
  },
);

it.each([['check:long', 'tests/checkLong.mjs']])(
  '%s says in one line what it does not understand, and ends with 1',
  async (_, program) => {
    const { code, said, complained } = await run([program, '--nonsense'], '');
    expect([code, said, complained.split('\n').length]).toEqual([1, '', 2]);
    expect(complained).toMatch(/^Evenstack could not go on: Unknown option '--nonsense'/);
  },
);
