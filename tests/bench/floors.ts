import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Sqlite from 'better-sqlite3';
import { io } from 'socket.io-client';
import { timesOf, type Times } from './timesOf';

/** There and back over a bare socket.io, at the rate the scores come. */
export async function echoFloor(many: number, interval: number): Promise<Times> {
  const child = spawn(process.execPath, [fileURLToPath(new URL('./echoServer.mjs', import.meta.url))], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const port = await new Promise<string>((resolve) =>
    child.stdout.setEncoding('utf8').on('data', (text: string) => resolve(/\d+/.exec(text)?.[0] ?? '')),
  );
  const socket = io(`http://127.0.0.1:${port}`, { transports: ['websocket'] });
  await new Promise<void>((resolve) => void socket.once('connect', resolve));
  const times: number[] = [];
  for (let place = 0; place < many; place += 1) {
    const began = performance.now();
    await new Promise<void>((resolve) => void socket.emit('echo', () => resolve()));
    times.push(performance.now() - began);
    await new Promise((resolve) => setTimeout(resolve, interval));
  }
  socket.close();
  child.kill();
  return timesOf(times);
}

/** One row, synced, in a bare data file in WAL mode with synchronous=FULL, at the rate the scores come. */
export async function insertFloor(many: number, interval: number): Promise<Times> {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-floor-'));
  const client = new Sqlite(join(folder, 'floor.db'));
  client.pragma('journal_mode = WAL');
  client.pragma('synchronous = FULL');
  client.exec('CREATE TABLE score (id INTEGER PRIMARY KEY, body TEXT NOT NULL) STRICT');
  const insert = client.prepare('INSERT INTO score (body) VALUES (?)');
  const times: number[] = [];
  for (let place = 0; place < many; place += 1) {
    const began = performance.now();
    insert.run('{"kind":"score","criterion":"headProportion","value":5,"cannotJudge":false}');
    times.push(performance.now() - began);
    await new Promise((resolve) => setTimeout(resolve, interval));
  }
  client.close();
  rmSync(folder, { recursive: true });
  return timesOf(times);
}
