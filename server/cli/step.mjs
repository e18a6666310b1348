import { spawn } from 'node:child_process';

/** A step of the launch that ended badly; the message is for the person at the keyboard. */
export class StepFailed extends Error {
  constructor(message, exitCode = 1) {
    super(message);
    this.exitCode = exitCode;
  }
}

/** Why a command ended that nobody foresaw, in one line and in the fault's own words; of a step that failed, its message. */
const faultLine = (error) =>
  error instanceof StepFailed
    ? error.message
    : `Evenstack could not go on: ${String(error?.message || error)
        .trim()
        .replaceAll(/\s*\n\s*/g, ' ')}`;

/** Says why and ends with a code that is not 0. */
export function endByFault(error) {
  process.stderr.write(`${faultLine(error)}\n`);
  process.exitCode = error instanceof StepFailed ? error.exitCode : 1;
}

/** From here on what nobody catches ends the process so; a program that people run asks for it first of all. */
export function endByUncaughtFaults() {
  process.on('uncaughtException', (error) => {
    endByFault(error);
    process.exit();
  });
}

const heartbeatMs = 20_000;

/** Progress goes to the error stream: the other one belongs to what a command answers. */
export const say = (line) => process.stderr.write(`${line}\n`);

/**
 * Runs a program to its end, says that it is still running, and passes a stop on to it.
 *
 * @param {{ title: string, command: string, args: string[], env?: Record<string, string>, shell?: boolean }} step
 * @throws {StepFailed} when the program fails or is stopped
 */
export async function runStep({ title, command, args, env = {}, shell = false }) {
  const began = Date.now();
  const seconds = () => Math.round((Date.now() - began) / 1000);
  say(`${title} …`);
  // Both streams of the program go to our error stream.
  const child = spawn(command, args, { stdio: ['ignore', 2, 2], env: { ...process.env, ...env }, shell });
  let stoppedBy;
  const stop = (signal) => {
    stoppedBy = signal;
    child.kill(signal);
  };
  process.on('SIGINT', stop).on('SIGTERM', stop);
  const heartbeat = setInterval(() => say(`${title}: still running after ${seconds()} s`), heartbeatMs);
  try {
    const code = await new Promise((resolve, reject) => child.once('error', reject).once('exit', resolve));
    if (stoppedBy !== undefined) throw new StepFailed(`Stopped during: ${title}.`, stoppedBy === 'SIGINT' ? 130 : 143);
    if (code !== 0) throw new StepFailed(`${title}: failed after ${seconds()} s; what went wrong stands above.`);
    say(`${title}: done in ${seconds()} s`);
  } catch (error) {
    if (error instanceof StepFailed) throw error;
    throw new StepFailed(`${title}: ${command} could not be started (${error.code ?? error.message}).`);
  } finally {
    clearInterval(heartbeat);
    process.off('SIGINT', stop).off('SIGTERM', stop);
  }
}
