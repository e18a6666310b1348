import { spawn } from 'node:child_process';
import { once } from 'node:events';

export type FaultServer = {
  readonly url: string;
  readonly port: number;
  /** From the start of the process until it listened. */
  readonly readyAfter: number;
  readonly logged: readonly string[];
  /** Sends a signal and waits for the end; answers the exit code, null after a signal that cannot be caught. */
  end(signal: NodeJS.Signals): Promise<number | null>;
};

export type FaultServerSetting = {
  readonly program: string;
  readonly folder: string;
  readonly port?: number;
  readonly under?: readonly string[];
};

/** Starts the server of the fault tests, if asked `under` another program such as a tracer. */
export async function startFaultServer({
  program,
  folder,
  port = 0,
  under = [],
}: FaultServerSetting): Promise<FaultServer> {
  const [command = '', ...args] = [...under, process.execPath, program, folder, String(port)];
  const began = performance.now();
  const child = spawn(command, args, { stdio: ['pipe', 'pipe', 'pipe'] });
  const logged: string[] = [];
  child.stderr.setEncoding('utf8').on('data', (text: string) => logged.push(text));
  const gone = once(child, 'exit');
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
  for (;;) {
    const found = /listening on (\d+) as (\d+)/.exec(said);
    if (found) {
      const [listening, pid] = [Number(found[1]), Number(found[2])];
      const end = async (signal: NodeJS.Signals) => {
        // The server itself, not the tracer around it: that one ends with it.
        if (child.exitCode === null && child.signalCode === null) process.kill(pid, signal);
        await gone;
        return child.exitCode;
      };
      return {
        url: `http://127.0.0.1:${listening}`,
        port: listening,
        readyAfter: performance.now() - began,
        logged,
        end,
      };
    }
    if (child.exitCode !== null || child.signalCode !== null)
      throw new Error(`the fault server did not start:\n${logged.join('')}`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}
