import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { createServer as createTlsServer } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { once } from 'node:events';
import Sqlite from 'better-sqlite3';
import { expect, it } from 'vitest';
import { readSettings } from '#server/readSettings';
import { startFault, StartRefused } from '#server/startFault';

/** What some work throws. */
function thrownBy(work: () => unknown): unknown {
  try {
    work();
  } catch (error) {
    return error;
  }
  throw new Error('nothing was thrown');
}

const read = (env: Readonly<Record<string, string>>, args: string[] = []) =>
  readSettings({ env: { NODE_ENV: 'test', ...env }, args, folder: '/nowhere' });

const errorOf = (server: Server) => new Promise<unknown>((resolve) => server.once('error', resolve));

it('SC1: whatever stops a start is told in one line without a trace', async () => {
  const taken = createServer().listen(0, '127.0.0.1');
  await once(taken, 'listening');
  const address = taken.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const late = await errorOf(createServer().listen(port, '127.0.0.1'));
  const elsewhere = await errorOf(createServer().listen(0, '203.0.113.7'));
  taken.close();
  expect(startFault(late)).toBe(
    `Port ${port} is taken by another program. Choose another with PORT, or DEMO_PORT for the demo.`,
  );
  expect(startFault(elsewhere)).toBe('HOST=203.0.113.7 is no address of this machine.');
  expect(startFault(thrownBy(() => readFileSync('/nowhere/cert.pem')))).toBe(
    '/nowhere/cert.pem cannot be used (ENOENT).',
  );
  expect(startFault(thrownBy(() => createTlsServer({ cert: 'no certificate', key: 'no key' })))).toMatch(
    /^The certificate or its key cannot be used \([^\n]+\)\.$/,
  );
  expect(startFault(new Sqlite.SqliteError('database or disk is full', 'SQLITE_FULL'))).toMatch(
    /^The disk with the data folder is full\./,
  );
  expect(startFault(new Sqlite.SqliteError('database is locked', 'SQLITE_BUSY'))).toBe(
    'The data are in use by another program. Try again.',
  );
  expect(startFault(Object.assign(new Error('write'), { code: 'ENOSPC' }))).toMatch(
    /^The disk with the data folder is full\./,
  );
  expect(
    startFault(
      Object.assign(new Error('was compiled against\na different Node.js version'), { code: 'ERR_DLOPEN_FAILED' }),
    ),
  ).toMatch(/npm ci$/);
  expect(startFault(new StartRefused('One.\n  Two.'))).toBe('One. Two.');
  expect(startFault(new Error('something\nnobody thought of'))).toBe(
    'Evenstack could not go on: something nobody thought of',
  );
  expect(startFault('text')).toBe('Evenstack could not go on: text');
});

it('SC1: a file that is no compiled module is told as such', () => {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-native-'));
  const file = join(folder, 'spoiled.node');
  writeFileSync(file, 'not compiled for anything');
  expect(startFault(thrownBy(() => process.dlopen({ exports: {} }, file)))).toMatch(/npm ci$/);
  rmSync(folder, { recursive: true });
});

it('SC1: settings that mean nothing are refused, and an origin is taken as browsers write it', () => {
  expect(() => read({ NODE_ENV: 'test', EVENSTACK_ORIGIN: 'litter.example' })).toThrow(StartRefused);
  expect(() => read({ NODE_ENV: 'test' }, ['--tls-cert', 'cert.pem'])).toThrow('--tls-cert and --tls-key go together');
  expect(read({ NODE_ENV: 'test', EVENSTACK_ORIGIN: 'https://Litter.example:443/' }).origin).toBe(
    'https://litter.example',
  );
  expect([read({ NODE_ENV: 'test' }).fresh, read({ NODE_ENV: 'test' }, ['--new']).fresh]).toEqual([false, true]);
});
