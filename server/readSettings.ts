import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { namesInCertificate, namesInOrigin } from './knownHosts';
import { StartRefused } from './startFault';

export type Settings = {
  readonly port: number;
  /** Null when the demo is switched off; 0 lets the system pick. */
  readonly demoPort: number | null;
  readonly host: string;
  readonly dataFolder: string;
  readonly tls: { readonly cert: string; readonly key: string } | null;
  readonly origin: string | null;
  /** Names by which people reach this server, beside the machine's own. */
  readonly hosts: readonly string[];
  /** The proxy in front, if its word on where a request comes from may be taken. */
  readonly trustedProxy: string | null;
  readonly development: boolean;
  /** Asked to begin without data although backups lie there. */
  readonly fresh: boolean;
};

type Source = { readonly env: NodeJS.ProcessEnv; readonly args: readonly string[]; readonly folder: string };

/** What the environment and the command line ask for; `folder` is the project's, where the data lie unless told otherwise. Throws StartRefused. */
export function readSettings({ env, args, folder }: Source): Settings {
  const { values } = parseArgs({
    args: [...args],
    options: { 'tls-cert': { type: 'string' }, 'tls-key': { type: 'string' }, new: { type: 'boolean' } },
    strict: false,
  });
  const certificate = values['tls-cert'];
  const key = values['tls-key'];
  if ((certificate === undefined) !== (key === undefined))
    throw new StartRefused('--tls-cert and --tls-key go together: give both files, or neither.');
  const port = Number(env.PORT ?? 3000);
  const tls =
    typeof certificate === 'string' && typeof key === 'string'
      ? { cert: readFileSync(certificate, 'utf8'), key: readFileSync(key, 'utf8') }
      : null;
  const host = env.HOST ?? '0.0.0.0';
  const origin = env.EVENSTACK_ORIGIN === undefined ? null : originOf(env.EVENSTACK_ORIGIN);
  return {
    port,
    demoPort: demoPortOf(env.DEMO_PORT, port),
    host,
    dataFolder: env.EVENSTACK_DATA ?? join(folder, 'data'),
    tls,
    origin,
    // HOST may be a name as well as an address of the machine.
    hosts: [
      ...namesListed(env.EVENSTACK_HOSTS),
      host,
      ...namesInOrigin(origin),
      ...(tls === null ? [] : namesInCertificate(tls.cert)),
    ],
    trustedProxy: env.EVENSTACK_PROXY ?? null,
    development: env.NODE_ENV !== 'production',
    fresh: values.new === true,
  };
}

/** One above the port unless told otherwise; picked by the system where it picks the port. */
function demoPortOf(asked: string | undefined, port: number): number | null {
  if (asked === 'off') return null;
  if (asked !== undefined) return Number(asked);
  return port === 0 ? 0 : port + 1;
}

const namesListed = (list = '') =>
  list
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** As browsers write it: no path, no port that goes without saying. */
function originOf(asked: string): string {
  const url = URL.canParse(asked) ? new URL(asked) : null;
  if (url?.protocol !== 'http:' && url?.protocol !== 'https:')
    throw new StartRefused(`EVENSTACK_ORIGIN=${asked} is not an address such as https://litter.example.`);
  return url.origin;
}
