import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { runProgram } from '../support/runProgram.mjs';
import { workersAtOnce } from '../support/workersAtOnce.mjs';

const script = (text: string) => [process.execPath, '-e', text];
const idle = 'setInterval(() => undefined, 1000)';
const alive = (pid: number) => {
  try {
    process.kill(pid, 0);
    // A process that has ended and waits for its parent to hear of it is no more running.
    return !/^State:\s+Z/m.test(readFileSync(`/proc/${pid}/status`, 'utf8'));
  } catch {
    return false;
  }
};

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-run-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A program that starts one in a group of its own, as browsers are, and one beside it; both write down who they are, and are deaf to requests to end. */
function brood(name: string, then: string): { readonly text: string; pids(): number[] } {
  const file = (which: string) => join(folder, `${name}-${which}`);
  const deaf = (which: string) =>
    `process.on('SIGTERM', () => undefined); process.on('SIGINT', () => undefined); require('node:fs').writeFileSync(${JSON.stringify(file(which))}, String(process.pid)); ${idle}`;
  const start = (which: string, detached: boolean) =>
    `require('node:child_process').spawn(process.execPath, ['-e', ${JSON.stringify(deaf(which))}], { stdio: 'ignore', detached: ${detached} }).unref();`;
  const ready = `const wait = setInterval(() => { if (!['${file('group')}', '${file('beside')}'].every((one) => require('node:fs').existsSync(one) && require('node:fs').readFileSync(one, 'utf8') !== '')) return; clearInterval(wait); ${then} }, 20);`;
  return {
    text: `${start('group', true)} ${start('beside', false)} ${ready}`,
    pids: () => ['group', 'beside'].map((which) => Number(readFileSync(file(which), 'utf8'))),
  };
}

async function leavesNothing(signal: 'SIGINT' | 'SIGTERM' | 'SIGHUP' | 'SIGKILL'): Promise<void> {
  const { text, pids } = brood(signal, `process.stdout.write('ready'); ${idle}`);
  const module = new URL('../support/runProgram.mjs', import.meta.url).href;
  const run = `import(${JSON.stringify(module)}).then(({ runProgram }) => runProgram(${JSON.stringify(script(text))}, { minutes: 10 }))`;
  const runner = spawn(process.execPath, ['-e', run], { stdio: ['ignore', 'pipe', 'ignore'] });
  const gone = once(runner, 'exit');
  await once(runner.stdout, 'data');
  expect(pids().map(alive), signal).toEqual([true, true]);
  runner.kill(signal);
  await gone;
  await vi.waitFor(() => expect(pids().map(alive), signal).toEqual([false, false]));
}

describe('running a program for the tests', () => {
  it('gives its exit code and output', async () => {
    let output = '';
    const run = await runProgram(
      script("process.stdout.write('out'); process.stderr.write('err'); process.exitCode = 3"),
      {
        minutes: 1,
        output: (text: string) => (output += text),
      },
    );
    expect(run).toEqual({ code: 3, tooLong: false });
    expect([output.includes('out'), output.includes('err')]).toEqual([true, true]);
  });

  // The child holds on to the output for ten minutes: an answer before that shows that it was ended too.
  it('ends a program that takes too long, and its children', async () => {
    const sleep = 'setTimeout(() => {}, 600_000)';
    const run = await runProgram(
      script(
        `require('node:child_process').spawn(process.execPath, ['-e', '${sleep}'], { stdio: 'inherit' }); ${sleep}`,
      ),
      { minutes: 0.02, output: () => undefined },
    );
    expect(run).toEqual({ code: -1, tooLong: true });
  });

  it('ends what a program left running, in a group of its own or not, and keeps the exit code', async () => {
    const { text, pids } = brood('left', 'process.exit(7);');
    expect(await runProgram(script(text), { minutes: 10, output: () => undefined })).toEqual({
      code: 7,
      tooLong: false,
    });
    expect(pids().map(alive)).toEqual([false, false]);
  });

  // Each waits five seconds for what is deaf to requests: all at once.
  it('leaves nothing behind when the run itself ends by a signal, whichever', async () => {
    await Promise.all((['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGKILL'] as const).map(leavesNothing));
  });
});

it.each([
  [1, 1],
  [2, 2],
  [3, 2],
  [4, 2],
  [6, 3],
  [8, 4],
  [64, 4],
])('on %i cores %i workers run at once', (cores, workers) => {
  expect(workersAtOnce(cores)).toBe(workers);
});
