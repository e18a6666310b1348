import { X509Certificate } from 'node:crypto';
import { isIP, isIPv4 } from 'node:net';

export type KnownHosts = (host: string | undefined) => boolean;

type Source = {
  /** Names that were configured, or that the certificate is for; `*.x` stands for one label before x. */
  readonly names: readonly string[];
  /** The machine's addresses as they are now. */
  readonly addresses: () => readonly string[];
  /** The machine's own name. */
  readonly machine: string;
  readonly now: () => number;
};

/** Addresses change when a telephone's hotspot comes and goes; asking the system at every request is not needed for that. */
const rememberedFor = 5000;

/**
 * Whether a request was sent to this machine by a name or address of its own. A stranger's page can have its name lead to
 * this machine once it is open in a browser here (DNS rebinding): to the browser both are one origin, and neither cookie nor
 * Origin tells them apart. The Host header does.
 */
export function knownHosts({ names, addresses, machine, now }: Source): KnownHosts {
  const [bare = ''] = machine.toLowerCase().split('.');
  const always = new Set([
    'localhost',
    '::1',
    bare,
    `${bare}.local`,
    machine.toLowerCase(),
    ...names.map((name) => name.toLowerCase()),
  ]);
  let own: ReadonlySet<string> = new Set();
  let readAt = Number.NEGATIVE_INFINITY;
  return (host) => {
    const name = nameIn(host ?? '');
    if (name === '') return false;
    if (always.has(name) || (isIPv4(name) && name.startsWith('127.'))) return true;
    if (isIP(name) === 0)
      return names.some((one) => one.startsWith('*.') && name.slice(name.indexOf('.')) === one.slice(1).toLowerCase());
    if (now() - readAt >= rememberedFor) {
      own = new Set(addresses().map(plain));
      readAt = now();
    }
    return own.has(plain(name));
  };
}

/** The name in a Host header (RFC 9110, 7.2), without port, brackets and a closing dot; empty when it is none. */
function nameIn(host: string): string {
  const [, bracketed, simple] = /^(?:\[([0-9a-f:.]+)\]|([a-z0-9._-]+?)\.?)(?::\d+)?$/i.exec(host) ?? [];
  return (bracketed ?? simple ?? '').toLowerCase();
}

/** IPv6 has many spellings; a zone names the interface, not the address. */
function plain(address: string): string {
  const [bare = ''] = address.split('%');
  return isIP(bare) === 6 ? new URL(`http://[${bare}]`).hostname.slice(1, -1) : bare;
}

/** The names and addresses that a certificate was made for (RFC 5280, 4.2.1.6); of a chain, those of its first. */
export function namesInCertificate(certificate: string): readonly string[] {
  const names = new X509Certificate(certificate).subjectAltName ?? '';
  return names.split(', ').flatMap((name) => /^(?:DNS|IP Address):(.+)$/.exec(name)?.[1] ?? []);
}

/** The name in a configured origin; none in what is no address. */
export function namesInOrigin(origin: string | null): readonly string[] {
  return origin !== null && URL.canParse(origin) ? [new URL(origin).hostname.replace(/^\[|\]$/g, '')] : [];
}
