import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { endMarked, markName } from './marked.mjs';

const watchdog = fileURLToPath(new URL('marked.mjs', import.meta.url));

/**
 * A process of its own that outlives this one by as long as it takes to end everything that carries the mark: an
 * interrupt or `kill -9` of the run leaves no server and no browser behind.
 */
function watch(mark) {
  const dog = spawn(process.execPath, [watchdog, mark], { stdio: ['pipe', 'ignore', 'ignore'], detached: true });
  dog.unref();
  dog.stdin.unref();
  return () => dog.stdin.end();
}

/**
 * Runs a program in its own process group with its output shown. When it ends, takes too long or we are stopped, whatever
 * it started is ended too, browsers in groups of their own included.
 *
 * @param {string[]} command program and arguments
 * @param {{ minutes: number, env?: Record<string, string>, output?: (text: string) => void }} how
 * @returns {Promise<{ code: number, tooLong: boolean }>} `code` is -1 when it could not be started or was killed
 */
export async function runProgram([program = '', ...args], { minutes, env = {}, output }) {
  const pipe = output === undefined ? 'inherit' : 'pipe';
  const mark = randomUUID();
  // A run inside a run carries both marks.
  const marks = [process.env[markName], mark].filter(Boolean).join(' ');
  const stopWatching = watch(mark);
  const child = spawn(program, args, {
    stdio: ['ignore', pipe, pipe],
    detached: true,
    env: { ...process.env, ...env, [markName]: marks },
  });
  const end = (signal) => {
    try {
      process.kill(-child.pid, signal);
    } catch (error) {
      // Nobody left in the group is what we want.
      if (error.code !== 'ESRCH') throw error;
    }
  };
  const leave = (signal) => {
    end(signal);
    process.exit(signal === 'SIGINT' ? 130 : 143);
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, leave);
  for (const stream of output === undefined ? [] : [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', output);
  let tooLong = false;
  const timer = setTimeout(() => {
    tooLong = true;
    end('SIGKILL');
  }, minutes * 60_000);
  // What it left running may hold on to its output: that is ended when the program itself is.
  const ended = new Promise((resolve) => {
    child.once('error', (error) => {
      console.error(`${program}: ${error.message}`);
      resolve(-1);
    });
    child.once('exit', (exitCode) => resolve(exitCode ?? -1));
  });
  const said =
    output === undefined ? ended : new Promise((resolve) => child.once('close', resolve).once('error', resolve));
  const code = await ended;
  clearTimeout(timer);
  if (child.pid !== undefined) end('SIGKILL');
  await endMarked(mark);
  await said;
  stopWatching();
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.off(signal, leave);
  return { code, tooLong };
}
