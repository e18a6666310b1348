/** Where a command speaks: its answer, and its complaints. Handed in, so that tests read both without touching the process. */
export type CliOutput = { readonly answer: (line: string) => void; readonly complain: (line: string) => void };

export const processOutput: CliOutput = {
  answer: (line) => void process.stdout.write(`${line}\n`),
  complain: (line) => void process.stderr.write(`${line}\n`),
};
