import { createServer } from 'node:net';

/**
 * Tries the port by listening on it for a moment.
 *
 * @param {{ port: string, name: string, host?: string | undefined }} wanted `name` is the setting that moves the port
 * @returns {Promise<string | undefined>} one line, or undefined when the port is free (0 always is: the system picks one)
 */
export function portComplaint({ port, name, host }) {
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535) {
    return Promise.resolve(`${name}=${port} is not a port: give a whole number from 0 to 65535.`);
  }
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', (error) => {
      const why = error.code === 'EADDRINUSE' ? 'is taken by another program' : `cannot be opened (${error.code})`;
      resolve(`Port ${port} ${why}. Choose another with ${name}, for instance ${name}=${suggestion(port)}.`);
    });
    probe.listen({ port: Number(port), ...(host === undefined ? {} : { host }) }, () =>
      probe.close(() => resolve(undefined)),
    );
  });
}

const suggestion = (port) => (Number(port) + 100 <= 65_535 ? Number(port) + 100 : 3000);
