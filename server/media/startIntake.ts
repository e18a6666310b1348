import { type ChildProcess, fork } from 'node:child_process';
import { readdirSync, rmSync } from 'node:fs';
import { constants, setPriority } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DomainError } from '#lib/errors';
import type { Intake, IntakeReply, Upload } from './intake';

/** Milliseconds after which a picture is given up for now: the largest allowed one takes a few seconds, unless other work leaves it no processor. */
const longest = 60_000;

/**
 * Pictures are written anew in a process of their own, behind everything else in the queue for the processor: a score
 * never waits for one. What kills that process is one unreadable picture, not the server. It starts with the first picture.
 */
export function startIntake(module: URL, patience = () => longest): { readonly intake: Intake; close(): void } {
  let running: ChildProcess | null = null;
  const start = () => {
    const child = fork(fileURLToPath(module), { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    const forget = () => {
      if (running === child) running = null;
    };
    child.once('exit', forget).on('error', forget);
    // Before it has threads, which take over what holds when they begin.
    if (child.pid !== undefined) setPriority(child.pid, constants.priority.PRIORITY_BELOW_NORMAL);
    child.unref();
    child.channel?.unref();
    return child;
  };
  return {
    intake: async (upload) => {
      // One that was told to end may take another moment over it, and would take this picture with it.
      if (!running || running.killed) running = start();
      const reply = await ask(running, { upload, patience: patience() });
      if ('media' in reply) return reply.media;
      if ('refusal' in reply) throw new DomainError(reply.refusal.code, reply.refusal.details);
      throw Object.assign(new Error(reply.fault.message), { code: reply.fault.code });
    },
    close: () => {
      running?.kill('SIGKILL');
    },
  };
}

function ask(
  child: ChildProcess,
  { upload, patience }: { readonly upload: Upload; readonly patience: number },
): Promise<IntakeReply> {
  return new Promise((resolve) => {
    const answer = (reply: IntakeReply) => {
      clearTimeout(timer);
      child.off('message', answer).off('exit', gone);
      resolve(reply);
    };
    const refuse = (code: 'file-unreadable' | 'busy') => answer({ refusal: { code, details: {} } });
    const gone = () => refuse('file-unreadable');
    const timer = setTimeout(() => {
      refuse('busy');
      child.kill('SIGKILL');
    }, patience);
    child.once('message', answer).once('exit', gone);
    // It never began, or has just ended: no fault of the picture's.
    child.send(upload, (error) => error && refuse('busy'));
  });
}

/**
 * Removes what uploads left that a stop or a power cut broke off. Whole pictures stay, also those that no row names: a
 * later backup may name them.
 */
export function removeBrokenOff(folder: string): void {
  for (const name of namesIn(folder)) if (/\.(upload|part)$/.test(name)) rmSync(join(folder, name), { force: true });
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    // No picture was ever brought.
    return [];
  }
}
