import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { isIPv6 } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import type { Settings } from './readSettings';

type Listening = {
  readonly settings: Pick<Settings, 'host' | 'tls' | 'origin'>;
  readonly port: number;
  readonly network: readonly string[];
};

const everywhere = new Set(['0.0.0.0', '::']);

/**
 * Under which origins people reach the server, the best for this machine first: the one a proxy gives it, else the address it
 * listens on, else this machine's name for itself and its addresses in the network.
 */
export function originsOf({ settings: { host, tls, origin }, port, network }: Listening): string[] {
  if (origin !== null) return [origin];
  const hosts = everywhere.has(host) ? ['localhost', ...network] : [host];
  // URL leaves out the port that goes without saying.
  return hosts.map((one) => new URL(`${tls ? 'https' : 'http'}://${isIPv6(one) ? `[${one}]` : one}:${port}`).origin);
}

/** What is printed of a fresh owner link: it dies at its first use (BL9), and until then whoever reads it can use it. */
export function ownerLinkLines(origins: readonly string[], token: string): string[] {
  const [first, ...others] = origins.map((origin) => `${origin}/join#${token}`);
  return [
    `Owner link, good for one use: ${first ?? ''}`,
    ...others.map((link) => `The same link from another device in this network: ${link}`),
    'Until it is used, whoever can read these lines, in a log too, can sign in by it.',
  ];
}

/** Addresses under which telephones in the same network reach this machine. */
export function networkAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address);
}

const noteIn = (folder: string) => join(folder, 'serving');

/** While a server serves a data folder, its origins lie in it, one a line, for whoever makes a link beside it. */
export function noteServing(folder: string, origins: readonly string[]): () => void {
  writeFileSync(noteIn(folder), origins.map((origin) => `${origin}\n`).join(''), { mode: 0o600 });
  return () => rmSync(noteIn(folder), { force: true });
}

/** The origins of the server that holds this data folder; empty where none has left a note. */
export function readServing(folder: string): string[] {
  try {
    return readFileSync(noteIn(folder), 'utf8')
      .split('\n')
      .filter((line) => line !== '');
  } catch {
    return [];
  }
}
