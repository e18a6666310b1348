import { storageFault } from '#db/storageFault';

/** A start that cannot be: its message is one sentence or two for the person at the terminal. */
export class StartRefused extends Error {}

const advice = {
  native: 'A package was built for another Node or machine, or is not whole. Install it anew: npm ci',
  busy: 'The data are in use by another program. Try again.',
  full: 'The disk with the data folder is full. Make room and start again; what was confirmed before is there.',
};

/** Why a start, or a command beside it, failed, in one line for the person at the terminal; the error's own words only where it is none that can be foreseen. */
export function startFault(error: unknown): string {
  if (error instanceof StartRefused) return oneLine(error.message);
  if (storageFault(error) === 'disk-full') return advice.full;
  if (storageFault(error) === 'busy') return advice.busy;
  if (!(error instanceof Error)) return `Evenstack could not go on: ${oneLine(String(error))}`;
  const { code, syscall, path, port, address } = detailsOf(error);
  if (code === 'ERR_DLOPEN_FAILED' || /bindings file/.test(error.message)) return advice.native;
  if (code === 'ENOSPC') return advice.full;
  if (syscall === 'listen' || code === 'EADDRINUSE') return listenFault({ code, port, address });
  if (/^ERR_OSSL/.test(code)) return `The certificate or its key cannot be used (${oneLine(error.message)}).`;
  if (path !== '') return `${path} cannot be used (${code}).`;
  return `Evenstack could not go on: ${oneLine(error.message)}`;
}

function listenFault({
  code,
  port,
  address,
}: {
  readonly code: string;
  readonly port: string;
  readonly address: string;
}): string {
  if (code === 'EADDRINUSE')
    return `Port ${port} is taken by another program. Choose another with PORT, or DEMO_PORT for the demo.`;
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') return `HOST=${address} is no address of this machine.`;
  return `Port ${port} cannot be opened (${code}). Choose another with PORT, or DEMO_PORT for the demo.`;
}

/** What Node's own errors say beside their message; empty where they do not. */
function detailsOf(error: Error): Record<'code' | 'syscall' | 'path' | 'port' | 'address', string> {
  const found = new Map<string, unknown>(Object.entries(error));
  const text = (name: string) => {
    const value = found.get(name);
    return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
  };
  return {
    code: text('code'),
    syscall: text('syscall'),
    path: text('path'),
    port: text('port'),
    address: text('address'),
  };
}

const oneLine = (text: string) => text.trim().replaceAll(/\s*\n\s*/g, ' ');
