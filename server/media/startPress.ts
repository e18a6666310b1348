import { fork, type ChildProcess } from 'node:child_process';
import { constants, setPriority } from 'node:os';
import { fileURLToPath } from 'node:url';
import { DomainError } from '#lib/errors';
import type { Press, PressReply } from './press';

/** A telephone's picture takes about a second; twenty times as long on a slow machine under load is still well within. */
const longest = 60_000;

/**
 * Pictures are written anew in a process of their own, behind everything else in the queue for the processor: a score
 * never waits for one. What kills that process is one unreadable picture, not the server. It starts with the first picture.
 */
export function startPress(module: URL): { readonly press: Press; close(): void } {
  let process: ChildProcess | null = null;
  const start = () => {
    const child = fork(fileURLToPath(module), { serialization: 'advanced', stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    // Before it has threads, which take over what holds when they begin.
    if (child.pid !== undefined) setPriority(child.pid, constants.priority.PRIORITY_BELOW_NORMAL);
    child.once('exit', () => {
      if (process === child) process = null;
    });
    child.unref();
    child.channel?.unref();
    return child;
  };
  return {
    press: async (bytes) => {
      process ??= start();
      const reply = await ask(process, bytes);
      if ('refusal' in reply) throw new DomainError(reply.refusal);
      return reply.image;
    },
    close: () => {
      process?.kill('SIGKILL');
    },
  };
}

function ask(child: ChildProcess, bytes: Buffer): Promise<PressReply> {
  return new Promise((resolve) => {
    const answer = (reply: PressReply) => {
      clearTimeout(timer);
      child.off('message', answer).off('exit', gone);
      resolve(reply);
    };
    const gone = () => answer({ refusal: 'file-unreadable' });
    const timer = setTimeout(() => child.kill('SIGKILL'), longest);
    child.once('message', answer).once('exit', gone);
    child.send(bytes);
  });
}
