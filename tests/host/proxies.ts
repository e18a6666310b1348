// Part of `npm run check:long`: the samples of server/host in front of the built app, with the real nginx and Caddy of the system.
import assert from 'node:assert/strict';
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { io } from 'socket.io-client';
import { serverMark } from '#lib/contract/wire';
import { startApp } from '#tests/support/startApp';

const name = 'litter.example';
const origin = `https://${name}`;
const sample = (file: string) =>
  readFileSync(fileURLToPath(new URL(`../../server/host/${file}`, import.meta.url)), 'utf8');
const pause = (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds));

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

type Ports = { readonly app: number; readonly tls: number; readonly plain: number };
type Proxy = { readonly program: string; start(folder: string, ports: Ports): ChildProcess };

/** The sample as it stands, but for names, ports and a certificate of its own. */
const nginx: Proxy = {
  program: 'nginx',
  start: (folder, { app, tls }) => {
    execFileSync(
      'openssl',
      [
        'req',
        '-x509',
        '-newkey',
        'rsa:2048',
        '-nodes',
        '-days',
        '2',
        '-subj',
        `/CN=${name}`,
        '-keyout',
        join(folder, 'privkey.pem'),
        '-out',
        join(folder, 'fullchain.pem'),
      ],
      { stdio: 'ignore' },
    );
    const site = sample('nginx.conf')
      .replace('listen 443', `listen 127.0.0.1:${tls}`)
      .replaceAll(`/etc/letsencrypt/live/${name}`, folder)
      .replaceAll('127.0.0.1:3000', `127.0.0.1:${app}`);
    const around = `daemon off; pid ${folder}/nginx.pid; error_log ${folder}/error.log; events {} http { access_log off; client_body_temp_path ${folder}/body; proxy_temp_path ${folder}/proxy; ${site} }`;
    writeFileSync(join(folder, 'nginx.conf'), around);
    return spawn('nginx', ['-p', folder, '-c', join(folder, 'nginx.conf')], { stdio: ['ignore', 'ignore', 'inherit'] });
  },
};

const caddy: Proxy = {
  program: 'caddy',
  start: (folder, { app, tls, plain }) => {
    writeFileSync(
      join(folder, 'Caddyfile'),
      `{\n\tlocal_certs\n\tskip_install_trust\n\tadmin off\n\thttps_port ${tls}\n\thttp_port ${plain}\n}\n${sample('Caddyfile')}`,
    );
    mkdirSync(join(folder, 'home'));
    return spawn('caddy', ['run', '--adapter', 'caddyfile', '--config', join(folder, 'Caddyfile')], {
      stdio: 'ignore',
      env: {
        ...process.env,
        EVENSTACK_NAME: name,
        PORT: String(app),
        HOME: join(folder, 'home'),
        XDG_DATA_HOME: join(folder, 'home'),
        XDG_CONFIG_HOME: join(folder, 'home'),
      },
    });
  },
};

type Told = {
  readonly status: number;
  readonly ours: boolean;
  readonly cookie: string;
  readonly policy: string;
  readonly body: string;
};
type Asking = {
  readonly path: string;
  readonly body?: string | Buffer;
  readonly headers?: Readonly<Record<string, string>>;
  readonly from?: string;
};

/** As a browser asks for that name, whatever the address. */
function ask(port: number, { path, body, headers = {}, from = '127.0.0.1' }: Asking): Promise<Told> {
  return new Promise((resolve, reject) => {
    const call = request(
      {
        host: '127.0.0.1',
        port,
        path,
        method: body === undefined ? 'GET' : 'POST',
        servername: name,
        rejectUnauthorized: false,
        localAddress: from,
        headers: { host: name, origin, 'content-type': 'application/json', ...headers },
      },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8').on('data', (part: string) => (text += part));
        answer.on('end', () => {
          const cookie = answer.headers['set-cookie']?.[0] ?? '';
          resolve({
            status: answer.statusCode ?? 0,
            ours: answer.headers[serverMark.name] === serverMark.value,
            cookie,
            policy: String(answer.headers['content-security-policy'] ?? ''),
            body: text,
          });
        });
      },
    );
    call.on('error', reject).end(body);
  });
}

async function whenUp(port: number): Promise<void> {
  for (let tried = 0; tried < 100; tried += 1) {
    const told = await ask(port, { path: '/readyz' }).catch(() => null);
    if (told?.status === 200) return;
    await pause(200);
  }
  throw new Error('the proxy did not come up');
}

async function checkBehind(port: number, ownerLink: string): Promise<void> {
  const page = await ask(port, { path: '/' });
  assert.deepEqual(
    [page.status, page.ours, page.policy.includes("frame-ancestors 'none'")],
    [200, true, true],
    'a page comes with its protections',
  );

  const joined = await ask(port, {
    path: '/api/trpc/session.join',
    body: JSON.stringify({ token: new URL(ownerLink).hash.slice(1) }),
  });
  assert.equal(joined.status, 200, joined.body);
  assert.match(joined.cookie, /^__Host-evenstack=[\w-]+;.*HttpOnly.*Secure/, 'the session is kept for TLS alone');
  const cookie = joined.cookie.split(';')[0] ?? '';
  const me = await ask(port, { path: '/api/trpc/session.me', headers: { cookie } });
  assert.match(me.body, /"owner":true/, 'the session is known through the proxy');

  const foreign = await ask(port, {
    path: '/api/trpc/session.leave',
    body: '{}',
    headers: { cookie, origin: 'https://other.example' },
  });
  assert.equal(foreign.status, 403, 'a page of another origin changes nothing');

  const socket = io(`https://127.0.0.1:${port}`, {
    transports: ['websocket'],
    rejectUnauthorized: false,
    reconnection: false,
    extraHeaders: { host: name, origin, cookie },
  });
  await new Promise<void>((resolve, reject) => {
    socket.once('connect', resolve);
    socket.once('connect_error', reject);
  });
  socket.close();

  // A clip of nearly the largest size reaches the server, which refuses it in its own words; more than the proxy lets through it need not see.
  const photo = `/api/photo/${'a'.repeat(32)}`;
  const large = await ask(port, {
    path: photo,
    body: Buffer.alloc(58_000_000),
    headers: { 'content-type': 'video/mp4' },
  });
  assert.deepEqual([large.ours, large.status], [true, 401], 'what the server takes passes the proxy');

  // The address that counts is the one the proxy saw: neither the proxy's own nor one that a guesser writes.
  const guess = (from: string, forged: string) =>
    ask(port, {
      path: '/api/trpc/session.signIn',
      body: JSON.stringify({ passphrase: 'a wrong one' }),
      from,
      headers: { 'x-forwarded-for': forged },
    });
  const guessed = [];
  for (let tried = 0; tried < 7; tried += 1)
    guessed.push((await guess('127.0.0.2', `203.0.113.${tried}`)).body.includes('too-many'));
  assert.deepEqual(guessed.at(-1), true, 'forged addresses do not help who guesses');
  assert.equal(
    (await guess('127.0.0.3', '127.0.0.2')).body.includes('too-many'),
    false,
    'nor do they shut the door for others',
  );
}

async function tryProxy(proxy: Proxy): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-proxy-'));
  const ports: Ports = { app: await freePort(), tls: await freePort(), plain: await freePort() };
  Object.assign(process.env, { EVENSTACK_ORIGIN: origin, EVENSTACK_PROXY: '127.0.0.1' });
  await using app = await startApp({ port: ports.app });
  const running = proxy.start(folder, ports);
  const gone = once(running, 'exit').catch((error: Error) => [error.message]);
  try {
    await Promise.race([
      whenUp(ports.tls),
      gone.then(([code]) => Promise.reject(new Error(`${proxy.program} ended: ${String(code)}`))),
    ]);
    await checkBehind(ports.tls, app.ownerLink ?? '');
    console.log(`${proxy.program}: pages, session, socket, 58 MB and addresses pass as the sample has it`);
  } finally {
    running.kill('SIGTERM');
    await gone;
    rmSync(folder, { recursive: true, force: true });
  }
}

for (const proxy of [nginx, caddy]) await tryProxy(proxy);
