import { mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildWhenChanged, forget } from '../../../server/cli/freshness.mjs';
import { fromRoot } from '../../../server/cli/root.mjs';

const target = `probe-${process.pid}`;

describe('building only when something changed', () => {
  let folder = '';
  let builds = 0;

  const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
  const input = (name: string) => relative(fromRoot(), join(folder, name));
  const buildInto = (build: () => Promise<void>) =>
    buildWhenChanged({ target, inputs: [input('source'), input('absent')], proof: input('built'), build });
  const build = () =>
    buildInto(async () => {
      builds += 1;
      await Promise.resolve();
      write('built', 'yes');
    });

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'freshness-'));
    builds = 0;
    write('source', 'one');
  });

  afterEach(() => {
    rmSync(folder, { recursive: true, force: true });
    forget(target);
  });

  it('builds the first time and not again', async () => {
    await build();
    await build();
    expect(builds).toBe(1);
  });

  it('does not build for a new time on the same content', async () => {
    await build();
    utimesSync(join(folder, 'source'), new Date(), new Date('2031-01-01'));
    await build();
    expect(builds).toBe(1);
  });

  it('builds for new content of the same length', async () => {
    await build();
    write('source', 'two');
    await build();
    expect(builds).toBe(2);
  });

  it('builds for a new file', async () => {
    await build();
    write('absent', '');
    await build();
    expect(builds).toBe(2);
  });

  it('builds again when what was built is gone', async () => {
    await build();
    rmSync(join(folder, 'built'));
    await build();
    expect(builds).toBe(2);
  });

  it('does not take a failed build for a finished one', async () => {
    await build();
    write('source', 'broken');
    await expect(buildInto(() => Promise.reject(new Error('no')))).rejects.toThrow('no');
    await build();
    expect(builds).toBe(2);
  });
});
