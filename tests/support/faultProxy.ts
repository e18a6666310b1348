import { createServer, connect, type Server, type Socket } from 'node:net';

/**
 * What happens to the bytes between browser and server.
 * none: they pass. delay: each chunk comes later, in order. stall: held, and delivered once the fault ends, as after lost
 * radio. hole: swallowed, while the connections seem to live; what lost bytes stays dead, as behind a router that forgot it.
 * half-open: what the server says is swallowed, what the browser says arrives. cut: connections are reset, new ones too.
 */
type Fault =
  | { readonly kind: 'none' | 'stall' | 'hole' | 'half-open' | 'cut' }
  | { readonly kind: 'delay'; readonly milliseconds: number; readonly jitter: number };

export type FaultProxy = {
  /** Where the browser finds the server through the proxy. */
  readonly url: string;
  set(fault: Fault): void;
  [Symbol.asyncDispose](): Promise<void>;
};

type Way = 'up' | 'down';
type Pipe = {
  readonly browser: Socket;
  readonly server: Socket;
  dead: boolean;
  readonly held: (() => void)[];
  last: Promise<void>;
};

/** A TCP proxy before a server on this machine. It knows no protocol: pages, calls and sockets suffer alike. */
export async function startFaultProxy(target: string, random: () => number = Math.random): Promise<FaultProxy> {
  const { hostname, port } = new URL(target);
  const pipes = new Set<Pipe>();
  let fault: Fault = { kind: 'none' };

  const pass = (pipe: Pipe, way: Way, bytes: Buffer) => {
    const to = way === 'up' ? pipe.server : pipe.browser;
    const write = () => {
      if (to.writable && !pipe.dead) to.write(bytes);
    };
    if (fault.kind === 'hole' || (fault.kind === 'half-open' && way === 'down')) pipe.dead = true;
    if (pipe.dead) return;
    if (fault.kind === 'stall' || pipe.held.length > 0) pipe.held.push(write);
    else if (fault.kind === 'delay') {
      const wait = fault.milliseconds + random() * fault.jitter;
      const due = new Promise<void>((resolve) => setTimeout(resolve, wait));
      // In order: no chunk overtakes the one before it.
      pipe.last = Promise.all([pipe.last, due]).then(write);
    } else write();
  };

  const listener = createServer((browser) => {
    if (fault.kind === 'cut') {
      browser.resetAndDestroy();
      return;
    }
    const pipe: Pipe = {
      browser,
      server: connect(Number(port), '127.0.0.1'),
      dead: false,
      held: [],
      last: Promise.resolve(),
    };
    pipes.add(pipe);
    wire(pipe, pass);
    browser.on('close', () => pipes.delete(pipe));
  });
  await new Promise<void>((ready) => listener.listen(0, '127.0.0.1', ready));
  return {
    // The same name as the server's own: cookies know no ports.
    url: `http://${hostname}:${portOf(listener)}`,
    set: (next) => {
      fault = next;
      if (next.kind === 'cut') for (const { browser } of pipes) browser.resetAndDestroy();
      if (next.kind === 'none') for (const { held } of pipes) held.splice(0).forEach((write) => write());
    },
    [Symbol.asyncDispose]: async () => {
      for (const { browser, server } of pipes) {
        browser.destroy();
        server.destroy();
      }
      await new Promise((closed) => listener.close(closed));
    },
  };
}

function wire(pipe: Pipe, pass: (pipe: Pipe, way: Way, bytes: Buffer) => void): void {
  const { browser, server } = pipe;
  for (const [from, to, way] of [
    [browser, server, 'up'],
    [server, browser, 'down'],
  ] as const) {
    from.on('data', (bytes: Buffer) => pass(pipe, way, bytes));
    // An end that the other side must not hear of stays unheard: that is what makes a link half open.
    from.on('close', () => (pipe.dead ? undefined : to.destroy()));
    from.on('error', () => undefined);
  }
}

function portOf(listener: Server): number {
  const address = listener.address();
  return typeof address === 'object' && address ? address.port : 0;
}
