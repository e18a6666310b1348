import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import type { CliOutput } from '#server/cli/cliOutput';

/** A folder of real files, removed after the tests of the file that asked for it. */
export function scoreFiles(): (name: string, content: string | Uint8Array) => string {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  return (name, content) => {
    const path = join(folder, name);
    writeFileSync(path, content);
    return path;
  };
}

/** What a command said. */
export function recordedOutput(): CliOutput & { readonly answers: string[]; readonly complaints: string[] } {
  const [answers, complaints] = [new Array<string>(), new Array<string>()];
  return {
    answers,
    complaints,
    answer: (line) => void answers.push(line),
    complain: (line) => void complaints.push(line),
  };
}

/** A table of one criterion as a file of scores; null becomes a blank score. */
export function csvOfTable(table: readonly (readonly (number | null)[])[]): string {
  const lines = table.flatMap((row, puppy) =>
    row.map((score, evaluator) => `p${puppy + 1},e${evaluator + 1},c,${score ?? ''}`),
  );
  return ['puppy,evaluator,criterion,score', ...lines].join('\n');
}
