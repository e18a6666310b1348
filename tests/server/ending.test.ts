import { expect, it } from 'vitest';
import { createEnding } from '#server/ending';

function underTest(patience = 60_000) {
  const [done, logged, codes]: [string[], string[], number[]] = [[], [], []];
  const ending = createEnding({ exit: (code) => codes.push(code), log: (line) => logged.push(line), patience });
  return { ending, done, logged, codes };
}

it('SC1: what was opened last is closed first, and only then the process ends', async () => {
  const { ending, done, codes } = underTest();
  for (const part of ['data', 'server']) ending.add(async () => void (await Promise.resolve(), done.push(part)));
  await ending.end(0);
  expect({ done, codes }).toEqual({ done: ['server', 'data'], codes: [0] });
});

it('SC1: a part that does not close keeps no other from closing, and a fault while closing makes the end a bad one', async () => {
  const { ending, done, logged, codes } = underTest();
  ending.add(() => void done.push('data'));
  ending.add(() => Promise.reject(new Error('stuck')));
  ending.add(() => void ending.end(1, 'fault: once more'));
  await ending.end(0);
  expect({ done, logged, codes }).toEqual({
    done: ['data'],
    logged: ['fault: once more', 'closing: stuck'],
    codes: [1],
  });
});

it('SC1: after a fault the process ends although something never closes', async () => {
  const { ending, codes } = underTest(1);
  ending.add(() => new Promise<void>(() => undefined));
  void ending.end(1, 'fault: once');
  await expect.poll(() => codes).toEqual([1]);
});
