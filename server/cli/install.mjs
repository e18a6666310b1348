import { spawnSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { fromRoot } from './root.mjs';
import { runStep, say, StepFailed } from './step.mjs';

function readJson(...parts) {
  try {
    return JSON.parse(readFileSync(fromRoot(...parts), 'utf8'));
  } catch {
    // Missing, or cut short by an install that broke off.
    return undefined;
  }
}

/**
 * Whether what npm says it installed is what the lock file asks for, package by package; dates say nothing, since a checkout or
 * a copy sets them anew. Packages for other machines are left out by npm.
 *
 * @param {{ packages: Record<string, { version?: string, integrity?: string, optional?: boolean, link?: boolean }> }} wanted package-lock.json
 * @param {typeof wanted | undefined} installed node_modules/.package-lock.json, which npm writes when, and only when, an install ran to its end
 */
export function isInstalled(wanted, installed) {
  if (installed?.packages === undefined) return false;
  const asked = Object.entries(wanted.packages).filter(([path]) => path !== '');
  const same = ([path, { version, integrity, optional }]) => {
    const there = installed.packages[path];
    return there === undefined ? optional === true : there.version === version && there.integrity === integrity;
  };
  const known = new Set(asked.map(([path]) => path));
  return asked.every(same) && Object.keys(installed.packages).every((path) => known.has(path));
}

const nativeFile = ['node_modules', 'better-sqlite3', 'build', 'Release', 'better_sqlite3.node'];
// In node_modules on purpose: it goes when they go.
const loadedFile = ['node_modules', '.evenstack-loaded.json'];

/** What compiled packages depend on: Node's binary interface, the machine, and the compiled file itself. */
function nativeState() {
  const stat = statSync(fromRoot(...nativeFile), { throwIfNoEntry: false });
  return JSON.stringify({
    modules: process.versions.modules,
    platform: process.platform,
    arch: process.arch,
    size: stat?.size,
    changedMs: stat?.mtimeMs,
  });
}

/** Loads the compiled packages, in a process of its own: one that failed to load is not tried again by the same process. */
function loads() {
  const script = "const Database = require('better-sqlite3'); new Database(':memory:').close(); require('sharp');";
  return spawnSync(process.execPath, ['-e', script], { cwd: fromRoot(), stdio: 'ignore' }).status === 0;
}

/** Whether compiled packages load with this Node; tried only when something of theirs is not as it was when they last did. */
function nativeReady() {
  const now = nativeState();
  if (JSON.stringify(readJson(...loadedFile)) === now) return true;
  if (!loads()) return false;
  try {
    writeFileSync(fromRoot(...loadedFile), nativeState());
  } catch {
    // Packages of somebody else's: then they are tried at every start.
  }
  return true;
}

/** Started by npm, we call that same npm; otherwise the one on the path. */
function npm() {
  const script = process.env.npm_execpath;
  if (script !== undefined && script.endsWith('npm-cli.js'))
    return { command: process.execPath, first: [script], shell: false };
  return { command: 'npm', first: [], shell: process.platform === 'win32' };
}

function runNpm(title, args) {
  const { command, first, shell } = npm();
  return runStep({ title, command, args: [...first, ...args], shell });
}

// Building needs the compiler and the style tools too, whatever NODE_ENV says. Packages' own scripts wait for compilePackages.
const installAll = () => runNpm('npm ci', ['ci', '--include=dev', '--ignore-scripts', '--no-fund', '--no-audit']);
const rebuild = () => runNpm('npm rebuild', ['rebuild', 'better-sqlite3', 'sharp', 'esbuild']);
const compileTime =
  'Where no ready-made better-sqlite3 can be had it is compiled: 90 to 150 s more, and a C++ compiler, make and Python 3 are needed.';

/**
 * `npm ci` when what is installed is not what the lock file asks for. What has to be compiled is not yet compiled then.
 *
 * @throws {import('./step.mjs').StepFailed}
 */
export async function ensurePackages() {
  if (isInstalled(readJson('package-lock.json') ?? { packages: {} }, readJson('node_modules', '.package-lock.json')))
    return;
  say('Packages are missing or not those of package-lock.json; installing them takes a minute or two.');
  await installAll();
}

/**
 * Compiled packages fetched or built when they do not load with this Node: after an install, or after a change of Node.
 *
 * @throws {import('./step.mjs').StepFailed}
 */
export async function ensureCompiled() {
  if (nativeReady()) return;
  say(`Compiled packages do not yet load with Node ${process.versions.node}; they are fetched or built.`);
  say(compileTime);
  try {
    await rebuild();
  } catch (error) {
    // A stop is a stop; whatever else failed, a whole install may still do.
    if (!(error instanceof StepFailed) || error.exitCode !== 1) throw error;
  }
  if (nativeReady()) return;
  await installAll();
  await rebuild();
  if (!nativeReady())
    throw new StepFailed(
      `better-sqlite3 or sharp does not load with Node ${process.versions.node} on this machine, and installing them again did not help.`,
    );
}

/** @throws {import('./step.mjs').StepFailed} */
export async function ensureInstalled() {
  await ensurePackages();
  await ensureCompiled();
}
