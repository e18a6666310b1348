import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { holdData } from '#db/holdData';
import { open } from '#db/open';
import { ownerHasSignedIn } from '#db/queries/devices';
import { noteServing, readServing } from '#server/addresses';
import { ownerLinkCommand } from '#server/cli/ownerLink';
import { joinByLink } from '#server/commands/joining';
import { makeOwnerLink } from '#server/commands/owner';
import { dayRuntime } from '#tests/support/makeDay';

let folder = '';
let file = '';
let before: NodeJS.ProcessEnv;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-link-'));
  file = join(folder, 'evenstack.db');
  before = { ...process.env };
  Object.assign(process.env, { EVENSTACK_DATA: folder, PORT: '3210', HOST: '127.0.0.1' });
});

afterEach(() => {
  process.env = before;
  rmSync(folder, { recursive: true, force: true });
});

async function ask(args: string[] = []) {
  const [answers, complaints]: [string[], string[]] = [[], []];
  const code = await ownerLinkCommand(args, {
    answer: (line) => answers.push(line),
    complain: (line) => complaints.push(line),
  });
  return { code, answers, complaints, token: /#(\S+)/.exec(answers[0] ?? '')?.[1] ?? '' };
}

it('BL9: beside a running server a fresh owner link is printed with the server’s own origin; it works at once and once, and the one before is dead', async () => {
  const runtime = dayRuntime(open(file));
  const hold = holdData(file, 0);
  const earlier = makeOwnerLink(runtime);
  const gone = noteServing(folder, ['http://localhost:4567', 'http://192.168.1.20:4567']);
  const { code, answers, token } = await ask();
  expect(code).toBe(0);
  expect(answers.slice(0, 2)).toEqual([
    `Owner link, good for one use: http://localhost:4567/join#${token}`,
    `The same link from another device in this network: http://192.168.1.20:4567/join#${token}`,
  ]);
  expect(() => joinByLink(runtime, { token: earlier, secret: runtime.random.token() })).toThrow(
    expect.objectContaining({ code: 'link-dead' }),
  );
  expect(ownerHasSignedIn(runtime.db)).toBe(false);
  expect(joinByLink(runtime, { token: token, secret: runtime.random.token() })).not.toBe('');
  expect(() => joinByLink(runtime, { token: token, secret: runtime.random.token() })).toThrow(
    expect.objectContaining({ code: 'link-dead' }),
  );
  expect(ownerHasSignedIn(runtime.db)).toBe(true);
  gone();
  expect(readServing(folder)).toEqual([]);
  hold?.release();
  runtime.db.$client.close();
});

it('BL9: with the server stopped the link has the origin of the settings; a note left by a server that died is not believed', async () => {
  open(file).$client.close();
  noteServing(folder, ['http://localhost:4567']);
  const { code, answers, token } = await ask();
  expect({ code, line: answers[0] }).toEqual({
    code: 0,
    line: `Owner link, good for one use: http://127.0.0.1:3210/join#${token}`,
  });
  // The folder is let go again, and only a hash of the link is in it.
  const hold = holdData(file, 0);
  expect(hold).not.toBeNull();
  hold?.release();
  expect(token.length).toBeGreaterThan(20);
  expect(readFileSync(file).includes(token)).toBe(false);
});

it('BL9: without data, and while a backup is being restored, no link is made, in one line', async () => {
  expect(await ask()).toMatchObject({
    code: 1,
    answers: [],
    complaints: [expect.stringMatching(/^There is no data file .* npm start$/)],
  });
  open(file).$client.close();
  const hold = holdData(file, 0);
  writeFileSync(`${file}.restoring`, '');
  expect(await ask()).toMatchObject({
    code: 1,
    answers: [],
    complaints: ['A backup is being restored. Try again when that is done.'],
  });
  hold?.release();
});
