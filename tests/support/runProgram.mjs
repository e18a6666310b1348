import { spawn } from 'node:child_process';

/**
 * Runs a program in its own process group with its output shown, and ends the whole group when it takes too long or we are stopped.
 *
 * @param {string[]} command program and arguments
 * @param {{ minutes: number, env?: Record<string, string>, output?: (text: string) => void }} how
 * @returns {Promise<{ code: number, tooLong: boolean }>} `code` is -1 when it could not be started or was killed
 */
export async function runProgram([program = '', ...args], { minutes, env = {}, output }) {
  const pipe = output === undefined ? 'inherit' : 'pipe';
  const child = spawn(program, args, { stdio: ['ignore', pipe, pipe], detached: true, env: { ...process.env, ...env } });
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
  process.on('SIGINT', leave).on('SIGTERM', leave);
  for (const stream of output === undefined ? [] : [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', output);
  let tooLong = false;
  const timer = setTimeout(() => {
    tooLong = true;
    end('SIGKILL');
  }, minutes * 60_000);
  const code = await new Promise((resolve) => {
    child.once('error', (error) => {
      console.error(`${program}: ${error.message}`);
      resolve(-1);
    });
    child.once(output === undefined ? 'exit' : 'close', (exitCode) => resolve(exitCode ?? -1));
  });
  clearTimeout(timer);
  process.off('SIGINT', leave).off('SIGTERM', leave);
  return { code, tooLong };
}
