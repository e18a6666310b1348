import type { Server } from 'node:http';

/** How long requests under way may take to finish once the server stops; a write takes milliseconds. */
const patience = 5000;

/**
 * Waits until `closing`, which has stopped the listening, has seen the last connection go: idle ones are closed at once,
 * a request under way gets its answer first. Whoever has not finished by then, or never reads the end of a socket, is cut off.
 */
export async function drain(http: Server, closing: Promise<void>): Promise<void> {
  const sweep = setInterval(() => http.closeIdleConnections(), 25);
  let timer: NodeJS.Timeout | undefined;
  const tooLong = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, patience);
  });
  await Promise.race([closing, tooLong]);
  clearInterval(sweep);
  clearTimeout(timer);
  http.closeAllConnections();
}
