import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { nodeComplaint, oldestNode } from '../../server/cli/nodeVersion.mjs';
import { portComplaint } from '../../server/cli/port.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

interface Ending {
  code: number | null;
  output: string;
  error: string;
}

/** Runs a launcher to its end. Every case here ends before anything is installed, built or served. */
async function run(
  file: string,
  { args = [], env = {} }: { args?: string[]; env?: Record<string, string> },
): Promise<Ending> {
  const child = spawn(process.execPath, [`${root}server/cli/${file}`, ...args], {
    env: { ...process.env, PORT: '0', DEMO_PORT: 'off', ...env },
  });
  const ending: Ending = { code: null, output: '', error: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => (ending.output += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (ending.error += text));
  await once(child, 'close');
  return { ...ending, code: child.exitCode };
}

const oneLine = /^[^\n]+\n$/;

/** A port that stays taken for as long as the result lives. */
async function takenPort() {
  const server = createServer().listen(0);
  await once(server, 'listening');
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  return {
    port: String(address.port),
    [Symbol.asyncDispose]: () => new Promise<void>((done) => server.close(() => done())),
  };
}

describe('npm start', () => {
  it('refuses a taken port in one line and ends with 1', async () => {
    await using taken = await takenPort();
    const { code, output, error } = await run('start.mjs', { env: { PORT: taken.port } });
    expect(error).toMatch(oneLine);
    expect(error).toContain(`Port ${taken.port} is taken`);
    expect({ code, output }).toEqual({ code: 1, output: '' });
  });

  it("refuses a taken port of the demo in one line and names the demo's setting", async () => {
    await using taken = await takenPort();
    const { code, error } = await run('start.mjs', { env: { DEMO_PORT: taken.port } });
    expect(error).toMatch(oneLine);
    expect(error).toContain('DEMO_PORT');
    expect(code).toBe(1);
  });

  it.each(['abc', '-1', '65536', '80.5', ''])('refuses PORT=%s in one line and ends with 1', async (port) => {
    const { code, error } = await run('start.mjs', { env: { PORT: port } });
    expect(error).toMatch(oneLine);
    expect(error).toContain('is not a port');
    expect(code).toBe(1);
  });

  // A folder below a file can be made by nobody, not even by root, whom permissions do not bind.
  it('refuses a data folder that cannot be made in one line and ends with 1', async () => {
    const { code, output, error } = await run('start.mjs', { env: { EVENSTACK_DATA: '/dev/null/x' } });
    expect(error).toMatch(oneLine);
    expect(error).toContain('/dev/null/x');
    expect({ code, output }).toEqual({ code: 1, output: '' });
  });

  it('takes a free port', async () => {
    expect(await portComplaint({ port: '0', name: 'PORT' })).toBeUndefined();
  });
});

describe('the oldest Node', () => {
  it.each(['20.18.3', '18.20.8', '16.0.0', '4.9.1'])('refuses %s in one line', (version) => {
    const complaint = nodeComplaint(version);
    expect(complaint).toContain(version);
    expect(complaint).not.toContain('\n');
  });

  it.each([oldestNode, '20.19.1', '20.20.0', '21.0.0', '24.1.0', process.versions.node])('takes %s', (version) => {
    expect(nodeComplaint(version)).toBeUndefined();
  });

  it('is the one that package.json names', () => {
    const { engines } = z
      .object({ engines: z.object({ node: z.string() }) })
      .parse(JSON.parse(readFileSync(`${root}package.json`, 'utf8')));
    expect(engines.node).toBe(`>=${oldestNode}`);
  });

  // What runs before the check must parse in an old Node: no top-level await, ?., ??, private fields or node: imports.
  it.each(['start.mjs', 'nodeVersion.mjs'])('is told by %s in syntax it can read', (file) => {
    const text = readFileSync(`${root}server/cli/${file}`, 'utf8');
    expect(text).not.toMatch(/^await |\?\.[a-z(]|\?\?|#[a-z]+\(|'node:/m);
  });
});

describe('npm run NAME', () => {
  it('refuses a command that does not exist in one line and ends with 2', async () => {
    const { code, output, error } = await run('run.mjs', { args: ['nothing'] });
    expect(error).toMatch(oneLine);
    expect(error).toContain('"nothing"');
    expect({ code, output }).toEqual({ code: 2, output: '' });
  });
});
