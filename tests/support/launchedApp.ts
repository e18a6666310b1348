import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { connect } from 'node:net';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

export type Launched = {
  readonly pid: number;
  readonly printed: () => string;
  readonly complained: () => string[];
  /** Waits for a line on the output stream that matches; answers what it found. Throws when the process ends first. */
  says(pattern: RegExp): Promise<string>;
  /** Waits for the end, after a signal if one is given; answers the exit code, null after a signal that ended it. */
  ended(signal?: NodeJS.Signals): Promise<number | null>;
};

type Launch = {
  readonly data: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly args?: readonly string[];
  readonly under?: readonly string[];
};

/** `npm start` without npm: the launcher as a process of its own, on the built app, by default on a free port and without the demo. */
export function launchApp({ data, env = {}, args = [], under = [] }: Launch): Launched {
  const [command = '', ...rest] = [...under, process.execPath, `${root}server/cli/start.mjs`, ...args];
  const child = spawn(command, rest, {
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', DEMO_PORT: 'off', EVENSTACK_DATA: data, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let [output, error] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => (output += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (error += text));
  const gone = once(child, 'close');
  const complained = () => error.split('\n').filter((line) => line !== '');
  return {
    pid: child.pid ?? 0,
    printed: () => output,
    complained,
    says: async (pattern) => {
      for (;;) {
        const found = pattern.exec(output);
        if (found) return found[1] ?? found[0];
        if (child.exitCode !== null || child.signalCode !== null)
          throw new Error(`ended with ${child.exitCode}:\n${output}${error}`);
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    },
    ended: async (signal) => {
      if (signal !== undefined && child.exitCode === null) child.kill(signal);
      await gone;
      return child.exitCode;
    },
  };
}

/** Whether anything listens there. */
export function isTaken(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    socket.once('connect', () => (socket.destroy(), resolve(true)));
    socket.once('error', () => resolve(false));
  });
}
