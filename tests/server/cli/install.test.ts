import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isInstalled } from '../../../server/cli/install.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const binary = ['better-sqlite3', 'build', 'Release', 'better_sqlite3.node'];
let folder = '';

const modules = (...parts: string[]) => join(folder, 'node_modules', ...parts);
const lock = {
  packages: {
    '': { version: '1.0.0' },
    'node_modules/one': { version: '1.2.3', integrity: 'sha512-a' },
    'node_modules/else': { version: '1.0.0', optional: true },
  },
};
const installed = { packages: { 'node_modules/one': { version: '1.2.3', integrity: 'sha512-a' } } };

describe('whether packages are installed', () => {
  it('is told by what they are', () => {
    expect(isInstalled(lock, installed)).toBe(true);
    expect(isInstalled(lock, undefined)).toBe(false);
    expect(isInstalled(lock, { packages: {} })).toBe(false);
    expect(isInstalled(lock, { packages: { 'node_modules/one': { version: '1.2.2', integrity: 'sha512-a' } } })).toBe(
      false,
    );
    expect(isInstalled(lock, { packages: { 'node_modules/one': { version: '1.2.3', integrity: 'sha512-b' } } })).toBe(
      false,
    );
    expect(isInstalled(lock, { packages: { ...installed.packages, 'node_modules/stray': { version: '1.0.0' } } })).toBe(
      false,
    );
  });

  it('is true of this project as it stands', () => {
    const [wanted, there] = ['package-lock.json', 'node_modules/.package-lock.json'].map((path): unknown =>
      JSON.parse(readFileSync(join(root, path), 'utf8')),
    );
    expect(isInstalled(wanted as typeof lock, there as typeof installed)).toBe(true);
  });
});

describe('compiled packages', () => {
  /** The launcher's own files beside packages of which one can be spoiled, and an npm that only writes down what it is asked. */
  beforeEach(() => {
    folder = realpathSync(mkdtempSync(join(tmpdir(), 'evenstack-install-')));
    mkdirSync(modules('better-sqlite3', 'build', 'Release'), { recursive: true });
    mkdirSync(join(folder, 'server'));
    cpSync(join(root, 'server', 'cli'), join(folder, 'server', 'cli'), { recursive: true });
    for (const name of ['bindings', 'file-uri-to-path', 'sharp'])
      symlinkSync(join(root, 'node_modules', name), modules(name));
    for (const part of ['lib', 'package.json'])
      cpSync(join(root, 'node_modules', 'better-sqlite3', part), modules('better-sqlite3', part), { recursive: true });
    cpSync(join(root, 'node_modules', ...binary), modules(...binary));
    writeFileSync(join(folder, 'package.json'), '{}');
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(lock));
    writeFileSync(modules('.package-lock.json'), JSON.stringify(installed));
    writeFileSync(
      join(folder, 'npm-cli.js'),
      `const { appendFileSync, copyFileSync } = require('node:fs');
       appendFileSync(__dirname + '/asked', process.argv.slice(2).join(' ') + '\\n');
       if (process.argv[2] === process.env.MENDS) copyFileSync(${JSON.stringify(join(root, 'node_modules', ...binary))}, ${JSON.stringify(modules(...binary))});`,
    );
  });

  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  /** One run of the install check in a process of its own; what it asked npm for, and how it ended. */
  function ensure(mends = '') {
    rmSync(join(folder, 'asked'), { force: true });
    const script =
      "import('./server/cli/install.mjs').then((one) => one.ensureInstalled()).catch((error) => { console.error('LAST ' + error.message); process.exitCode = error.exitCode; })";
    const { status, stderr } = spawnSync(process.execPath, ['-e', script], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, npm_execpath: join(folder, 'npm-cli.js'), MENDS: mends },
    });
    const asked = existsSync(join(folder, 'asked'))
      ? readFileSync(join(folder, 'asked'), 'utf8').trim().split('\n')
      : [];
    return { status, last: stderr.trim().split('\n').at(-1), asked: asked.map((line) => line.split(' ')[0]) };
  }

  const loadedNote = () => modules('.evenstack-loaded.json');

  it('are loaded once, and again only when Node, the machine or their file changed, whatever the dates of packages', () => {
    expect(ensure()).toMatchObject({ status: 0, asked: [] });
    expect(JSON.parse(readFileSync(loadedNote(), 'utf8'))).toMatchObject({
      modules: process.versions.modules,
      platform: process.platform,
      arch: process.arch,
    });
    utimesSync(join(folder, 'package-lock.json'), new Date(), new Date(Date.now() + 86_400_000));
    expect(ensure()).toMatchObject({ status: 0, asked: [] });
    // As after a change of Node: the note is of another, so they are loaded anew, and do.
    writeFileSync(
      loadedNote(),
      JSON.stringify({ ...(JSON.parse(readFileSync(loadedNote(), 'utf8')) as object), modules: '1' }),
    );
    expect(ensure()).toMatchObject({ status: 0, asked: [] });
    expect(readFileSync(loadedNote(), 'utf8')).toContain(`"${process.versions.modules}"`);
  });

  it('that do not load are built again, and when that does not help installed again', () => {
    writeFileSync(modules(...binary), 'compiled for another Node');
    expect(ensure('rebuild')).toMatchObject({ status: 0, asked: ['rebuild'] });
    rmSync(modules(...binary));
    expect(ensure('ci')).toMatchObject({ status: 0, asked: ['rebuild', 'ci', 'rebuild'] });
    expect(ensure()).toMatchObject({ status: 0, asked: [] });
  });

  it('that cannot be had end the start in one line and 1', () => {
    writeFileSync(modules(...binary), 'compiled for another Node');
    expect(ensure()).toEqual({
      status: 1,
      asked: ['rebuild', 'ci', 'rebuild'],
      last: `LAST better-sqlite3 or sharp does not load with Node ${process.versions.node} on this machine, and installing them again did not help.`,
    });
    expect(readdirSync(modules())).not.toContain('.evenstack-loaded.json');
  });
});
