import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import Sqlite from 'better-sqlite3';
import { afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { checkFile } from '#db/checkFile';
import { holdData } from '#db/holdData';
import { isTaken, launchApp, type Launched } from '#tests/support/launchedApp';
import { makeDayFile } from '#tests/support/makeDay';
import { testClient } from '#tests/support/testClient';
import { buildBundle, buildPages } from '../../../server/cli/build.mjs';
import { ensureStrace } from '../../support/strace.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
let data = '';
let file = '';
let app: Launched | null = null;

beforeAll(async () => {
  await buildBundle();
  await buildPages();
});

beforeEach(() => {
  data = realpathSync(mkdtempSync(join(tmpdir(), 'evenstack-start-')));
  file = join(data, 'evenstack.db');
});

afterEach(async () => {
  await app?.ended('SIGKILL');
  app = null;
  rmSync(data, { recursive: true, force: true });
});

/** A port that was free a moment ago. */
async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (typeof address !== 'object' || !address) throw new Error('no port');
  return address.port;
}

/** A start that fails: with 1, one line on the error stream, nothing on the other, nobody listening, and the data let go. */
async function failure(how: Omit<Parameters<typeof launchApp>[0], 'data'>): Promise<string> {
  const port = await freePort();
  app = launchApp({ data, ...how, env: { PORT: String(port), ...how.env } });
  const code = await app.ended();
  const lines = app.complained();
  expect({ code, lines: lines.length, printed: app.printed() }, lines.join('\n')).toEqual({
    code: 1,
    lines: 1,
    printed: '',
  });
  expect(await isTaken(port)).toBe(false);
  const hold = holdData(file, 0);
  expect(hold).not.toBeNull();
  hold?.release();
  return lines[0] ?? '';
}

it('SC1: data of a later version end the start with one line and 1', async () => {
  makeDayFile(file);
  const client = new Sqlite(file);
  client.exec('INSERT INTO __drizzle_migrations (hash, created_at) VALUES (1, 99999999999999)');
  client.close();
  expect(await failure({})).toMatch(/was made by a later version of Evenstack/);
});

it('SC3: missing data beside backups end the start with one line and 1; --new begins', async () => {
  mkdirSync(join(data, 'backups'));
  writeFileSync(join(data, 'backups', 'evenstack-00000001-2026-09-12T09-00-00-000Z.db'), 'a backup');
  const line = await failure({});
  expect(line).toContain('npm run restore -- ');
  expect(line).toContain('npm start -- --new');
  expect(existsSync(file)).toBe(false);
  app = launchApp({ data, args: ['--new'] });
  await app.says(/Evenstack is ready/);
  expect(await app.ended('SIGTERM')).toBe(0);
  expect(readdirSync(join(data, 'backups')).filter((name) => name.endsWith('.db')).length).toBeGreaterThan(1);
});

it('SC1: a full disk ends the start with one line and 1', async () => {
  ensureStrace();
  makeDayFile(file);
  const under = [
    'strace',
    '-f',
    '-qq',
    '-o',
    '/dev/null',
    '-P',
    `${file}-wal`,
    '-e',
    'trace=pwrite64',
    '-e',
    'inject=pwrite64:error=ENOSPC',
  ];
  expect(await failure({ under })).toMatch(/^The disk with the data folder is full\./);
  checkFile(file, 'full');
});

it('SC1: a port that another program takes while the server starts ends the start with one line and 1, and the data are let go', async () => {
  const port = await freePort();
  app = launchApp({ data, env: { PORT: String(port) } });
  // The launcher has looked at the port by the time the data folder is held.
  while (!existsSync(`${file}.lock`)) await new Promise((resolve) => setTimeout(resolve, 5));
  const other = createServer().listen(port, '127.0.0.1');
  await once(other, 'listening');
  expect(await app.ended()).toBe(1);
  expect(app.complained()).toEqual([
    `Port ${port} is taken by another program. Choose another with PORT, or DEMO_PORT for the demo.`,
  ]);
  await new Promise((resolve) => other.close(resolve));
  checkFile(file, 'full');
});

it('SC1: a compiled package that does not load ends the server’s start with one line and 1', async () => {
  const place = join(data, 'app');
  mkdirSync(join(place, 'dist'), { recursive: true });
  mkdirSync(join(place, 'node_modules', 'better-sqlite3'), { recursive: true });
  copyFileSync(join(root, 'package.json'), join(place, 'package.json'));
  copyFileSync(join(root, 'dist', 'main.js'), join(place, 'dist', 'main.js'));
  for (const name of readdirSync(join(root, 'node_modules')))
    if (name !== 'better-sqlite3') symlinkSync(join(root, 'node_modules', name), join(place, 'node_modules', name));
  for (const part of ['lib', 'package.json'])
    cpSync(join(root, 'node_modules', 'better-sqlite3', part), join(place, 'node_modules', 'better-sqlite3', part), {
      recursive: true,
    });
  mkdirSync(join(place, 'node_modules', 'better-sqlite3', 'build', 'Release'), { recursive: true });
  writeFileSync(
    join(place, 'node_modules', 'better-sqlite3', 'build', 'Release', 'better_sqlite3.node'),
    'compiled for another Node',
  );
  const child = spawn(process.execPath, ['dist/main.js'], {
    cwd: place,
    env: {
      ...process.env,
      NODE_ENV: 'production',
      PORT: '0',
      HOST: '127.0.0.1',
      DEMO_PORT: 'off',
      EVENSTACK_DATA: data,
    },
  });
  let error = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => (error += text));
  await once(child, 'close');
  expect({ code: child.exitCode, error }).toEqual({
    code: 1,
    error: 'A package was built for another Node or machine, or is not whole. Install it anew: npm ci\n',
  });
});

it.each(['throw', 'reject'])(
  'SC1: a fault that nobody caught (%s) ends a running server with 1, after the data are closed',
  async (how) => {
    const fault = join(data, 'fault.mjs');
    const work =
      how === 'throw'
        ? "setTimeout(() => { throw new Error('nobody caught this'); })"
        : "void Promise.reject(new Error('nobody caught this'))";
    writeFileSync(
      fault,
      `import { isMainThread } from 'node:worker_threads'; if (isMainThread) process.on('SIGUSR2', () => { ${work}; });`,
    );
    app = launchApp({ data, env: { NODE_OPTIONS: `--import ${pathToFileURL(fault).href}` } });
    const url = new URL(await app.says(/Evenstack is ready: (\S+)/));
    process.kill(app.pid, 'SIGUSR2');
    expect(await app.ended()).toBe(1);
    expect(app.complained()[0]).toMatch(/^fault: Error: nobody caught this/);
    expect(await isTaken(Number(url.port))).toBe(false);
    // Closed in order: everything is in the one file.
    expect(existsSync(`${file}-wal`)).toBe(false);
    checkFile(file, 'full');
  },
);

it('BL9: the owner link is printed while no owner has signed in and never after; a fresh one is had beside the running server', async () => {
  app = launchApp({ data });
  const first = await app.says(/Owner link, good for one use: (\S+)\n/);
  expect(await app.ended('SIGTERM')).toBe(0);
  app = launchApp({ data });
  const second = await app.says(/Owner link, good for one use: (\S+)\n/);
  const { origin } = new URL(second);
  const join_ = (link: string) => testClient(origin).api.session.join.mutate({ token: new URL(link).hash.slice(1) });
  await expect(join_(first)).rejects.toMatchObject({ data: { code: 'link-dead' } });
  await join_(second);
  const command = spawn(process.execPath, ['server/cli/run.mjs', 'ownerLink'], {
    cwd: root,
    env: { ...process.env, PORT: '1', EVENSTACK_DATA: data },
  });
  let answer = '';
  command.stdout.setEncoding('utf8').on('data', (text: string) => (answer += text));
  await once(command, 'close');
  expect(command.exitCode).toBe(0);
  const third = /Owner link, good for one use: (\S+)\n/.exec(answer)?.[1] ?? '';
  expect(new URL(third).origin).toBe(origin);
  await join_(third);
  expect(await app.ended('SIGTERM')).toBe(0);
  app = launchApp({ data });
  await app.says(/The owner has signed in before\. A fresh link for another device: npm run -s owner-link\n/);
  expect(app.printed()).not.toContain('/join#');
  expect(await app.ended('SIGTERM')).toBe(0);
});
