import { createServer, request as ask, type IncomingMessage, type ServerResponse } from 'node:http';

export type Portal = {
  /** Where the browser finds the server through this network. */
  readonly url: string;
  /** While shut, everything is answered here, with status 200 and a page to sign in on; `way` refuses uploads as a proxy does. */
  set(state: 'open' | 'shut' | 'narrow'): void;
  /** How many calls were answered in the server's place. */
  answered(): number;
  [Symbol.asyncDispose](): Promise<void>;
};

/** A network whose sign-in page answers for everybody until one has signed in, before a server on this machine. Sockets get that page as well. */
export async function startPortal(target: string): Promise<Portal> {
  const { hostname, port } = new URL(target);
  let state: 'open' | 'shut' | 'narrow' = 'open';
  let answered = 0;
  const inItsPlace = (request: IncomingMessage, response: ServerResponse, status: number) => {
    answered += 1;
    request.resume();
    response
      .writeHead(status, { 'content-type': 'text/html', 'cache-control': 'max-age=3600' })
      .end('<!doctype html><title>Guest network</title><h1>Welcome, guest</h1>');
  };
  const http = createServer((request, response) => {
    if (state === 'shut') return inItsPlace(request, response, 200);
    if (state === 'narrow' && request.url?.startsWith('/api/photo/') === true && request.method === 'POST')
      return inItsPlace(request, response, 413);
    const on = ask(
      { host: '127.0.0.1', port, path: request.url, method: request.method, headers: request.headers },
      (answer) => {
        response.writeHead(answer.statusCode ?? 502, answer.headers);
        answer.pipe(response);
      },
    );
    on.on('error', () => response.destroy());
    response.on('close', () => on.destroy());
    return request.pipe(on);
  });
  // No WebSocket passes here, as in many such networks: doorbells come by polling.
  http.on('upgrade', (_, socket) => socket.destroy());
  await new Promise<void>((ready) => http.listen(0, '127.0.0.1', ready));
  const address = http.address();
  return {
    // The same name as the server's own: cookies know no ports.
    url: `http://${hostname}:${typeof address === 'object' && address ? address.port : 0}`,
    set: (next) => {
      state = next;
      if (next === 'shut') http.closeAllConnections();
    },
    answered: () => answered,
    [Symbol.asyncDispose]: async () => {
      http.closeAllConnections();
      await new Promise((closed) => http.close(closed));
    },
  };
}
