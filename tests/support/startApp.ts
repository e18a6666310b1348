import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { testClient, type TestClient } from './testClient';

const root = fileURLToPath(new URL('../..', import.meta.url));

export type App = {
  readonly url: string;
  /** The one-time owner link printed at start; null when the data have an owner who signed in before. */
  readonly ownerLink: string | null;
  readonly demoLink: string | null;
  /** Everything printed so far. */
  readonly printed: readonly string[];
  /** The owner as an API client; uses the owner link up. */
  owner(): Promise<TestClient>;
  [Symbol.asyncDispose](): Promise<void>;
};

type AppOptions = { readonly demo?: boolean; readonly data?: string; readonly port?: number };

/** The built app as a process of its own, on a free port and fresh data, as `npm start` runs it. */
export async function startApp({ demo = false, data, port = 0 }: AppOptions = {}): Promise<App> {
  const folder = data ?? mkdtempSync(join(tmpdir(), 'evenstack-app-'));
  const printed: string[] = [];
  const child = spawn(process.execPath, ['dist/main.js'], {
    cwd: root,
    env: {
      ...process.env,
      NODE_ENV: 'production',
      PORT: String(port),
      HOST: '127.0.0.1',
      EVENSTACK_HOSTS: 'barn.test',
      DEMO_PORT: demo ? '0' : 'off',
      EVENSTACK_DATA: folder,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const gone = new Promise<number | null>((resolve) => child.once('exit', resolve));
  child.stdout.setEncoding('utf8').on('data', (text: string) => printed.push(text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => printed.push(text));
  const find = async (pattern: RegExp) => {
    for (;;) {
      const found = pattern.exec(printed.join(''));
      if (found?.[1]) return found[1];
      if (child.exitCode !== null || child.signalCode !== null) break;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    throw new Error(`the app did not print ${pattern}:\n${printed.join('')}`);
  };
  const url = await find(/Evenstack is ready: (\S+)\n/);
  const ownerLine = await find(/^(Owner link, .*|The owner has signed in before.*)\n/m);
  const ownerLink = /https?:\S+/.exec(ownerLine)?.[0] ?? null;
  const demoLink = demo ? await find(/[Dd]emo\S*: (http:\/\/\S+)/) : null;
  return {
    url,
    ownerLink,
    demoLink,
    printed,
    owner: async () => {
      if (ownerLink === null) throw new Error('the owner has signed in before');
      const client = testClient(url);
      await client.api.session.join.mutate({ token: new URL(ownerLink).hash.slice(1) });
      return client;
    },
    [Symbol.asyncDispose]: async () => {
      child.kill('SIGTERM');
      await gone;
      if (data === undefined) rmSync(folder, { recursive: true, force: true });
    },
  };
}
