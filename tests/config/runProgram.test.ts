import { describe, expect, it } from 'vitest';
import { runProgram } from '../support/runProgram.mjs';

const script = (text: string) => [process.execPath, '-e', text];

describe('running a program for the tests', () => {
  it('gives its exit code and output', async () => {
    let output = '';
    const run = await runProgram(script("process.stdout.write('out'); process.stderr.write('err'); process.exitCode = 3"), {
      minutes: 1,
      output: (text: string) => (output += text),
    });
    expect(run).toEqual({ code: 3, tooLong: false });
    expect([output.includes('out'), output.includes('err')]).toEqual([true, true]);
  });

  // The child holds on to the output for ten minutes: an answer before that shows that it was ended too.
  it('ends a program that takes too long, and its children', async () => {
    const sleep = 'setTimeout(() => {}, 600_000)';
    const run = await runProgram(
      script(`require('node:child_process').spawn(process.execPath, ['-e', '${sleep}'], { stdio: 'inherit' }); ${sleep}`),
      { minutes: 0.02, output: () => undefined },
    );
    expect(run).toEqual({ code: -1, tooLong: true });
  });
});
