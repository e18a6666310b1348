// `npm run check:long`: the full-size runs, too long for `npm test`. A part that finished on this very code is not run again
// (--again runs it), so a broken-off check goes on where it stopped.
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildBundle, buildPages } from '../server/cli/build.mjs';
import { fingerprint } from '../server/cli/fingerprint.mjs';
import { ensureInstalled } from '../server/cli/install.mjs';
import { nodeComplaint } from '../server/cli/nodeVersion.mjs';
import { fromRoot } from '../server/cli/root.mjs';
import { endByUncaughtFaults } from '../server/cli/step.mjs';
import { runProgram } from './support/runProgram.mjs';

endByUncaughtFaults();

const command = (name, ...args) => [process.execPath, fromRoot('server', 'cli', 'run.mjs'), name, ...args];

/** Browser tests, one after the other. */
const browserTests = (...args) => [
  process.execPath,
  fromRoot('node_modules', '@playwright', 'test', 'cli.js'),
  'test',
  '-c',
  fromRoot('tests/e2e/playwright.config.ts'),
  ...args,
  '--workers',
  '1',
  '--global-timeout',
  '0',
];

/** Files of tests, which run at full size and hold times to their bounds wherever this check names them a folder. */
const unitTest = (...files) => [
  process.execPath,
  fromRoot('node_modules', 'vitest', 'vitest.mjs'),
  'run',
  '-c',
  fromRoot('tests/config/vitest.config.ts'),
  '--maxWorkers',
  '1',
  ...files,
];

/** What npm test runs by what it sees alone. Those of the faults have parts of their own. */
const filesThatHoldTimes = (ending) =>
  readdirSync(fromRoot('tests'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending) && !name.startsWith('faults'))
    .filter((name) => readFileSync(fromRoot('tests', name), 'utf8').includes('holdTime('))
    .map((name) => `tests/${name}`);

/** Small faults planted in files whose tests are pure, to see that a test finds them. */
const mutants = (part) => [process.execPath, fromRoot('tests', 'mutate.mjs'), part];

/** Name → program and arguments. A part prints its figures and ends with 0 only when they hold. */
const parts = {
  simulation: unitTest('tests/faults/simulation.test.ts'),
  kill: unitTest('tests/faults/kill.test.ts'),
  powerCut: unitTest('tests/faults/powerCut.test.ts'),
  blackBox: unitTest('tests/blind/blackBox.test.ts'),
  blindBrowser: browserTests('blind.spec.ts'),
  proxies: [process.execPath, '--import', 'tsx', fromRoot('tests', 'host', 'proxies.ts')],
  engine: unitTest('tests/lib/reconcile', 'tests/lib/stats'),
  calibrate: command('calibrate'),
  tabKills: ['env', 'TAB_KILLS=200', ...browserTests('offline.spec.ts', '-g', 'a tab killed')],
  fuzz: ['env', 'FUZZ_INPUTS=100000', ...unitTest('tests/faults/fuzz.test.ts')],
  rulesMutated: mutants('rules'),
  numbersMutated: mutants('numbers'),
  latency: unitTest(...filesThatHoldTimes('.test.ts')),
  browserLatency: browserTests(...filesThatHoldTimes('.spec.ts'), '--grep-invert', 'a tab killed'),
};

const workers = 2;
const hoursPerPart = 6;

const git = (...args) => execFileSync('git', args, { cwd: fromRoot(), encoding: 'utf8' }).trim();

/** Figures belong to one state of the code: the commit, and what differs from it. */
function stateFolder() {
  const changed = git('status', '--porcelain') !== '';
  const mark = changed
    ? `-changed-${fingerprint(['app', 'server', 'db', 'lib', 'tests', 'fixtures', 'package-lock.json']).content().slice(0, 12)}`
    : '';
  return fromRoot('.check-long', `${git('rev-parse', 'HEAD')}${mark}`);
}

function readFinished(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    // Never ran here, or broke off while writing.
    return undefined;
  }
}

async function runPart(name, folder) {
  const began = Date.now();
  let output = '';
  console.log(`${name}: started`);
  const { code, tooLong } = await runProgram(parts[name], {
    minutes: hoursPerPart * 60,
    // A part that keeps its own finished pieces puts them here.
    env: { CHECK_LONG_FOLDER: join(folder, name) },
    output: (text) => {
      output += text;
    },
  });
  const result = {
    name,
    passed: code === 0,
    code,
    tooLong,
    startedAt: new Date(began).toISOString(),
    seconds: Math.round((Date.now() - began) / 1000),
    output,
  };
  writeFileSync(join(folder, `${name}.json`), JSON.stringify(result, undefined, 2));
  return result;
}

function report(result, again) {
  const how = result.passed ? 'passed' : result.tooLong ? 'took too long' : `failed with code ${result.code}`;
  console.log(
    `\n== ${result.name}: ${how}, ${result.seconds} s${again ? `, run ${result.startedAt}` : ''}\n${result.output.trimEnd()}`,
  );
}

async function runChosen(names, again) {
  const folder = stateFolder();
  mkdirSync(folder, { recursive: true });
  const waiting = [...names];
  const results = [];
  const worker = async () => {
    for (let name = waiting.shift(); name !== undefined; name = waiting.shift()) {
      const finished = again ? undefined : readFinished(join(folder, `${name}.json`));
      const result = finished?.passed ? finished : await runPart(name, folder);
      report(result, result === finished);
      results.push(result);
    }
  };
  await Promise.all(Array.from({ length: workers }, worker));
  return results;
}

const { values } = parseArgs({
  options: { part: { type: 'string', multiple: true, default: [] }, again: { type: 'boolean', default: false } },
});
const unknown = values.part.filter((name) => !(name in parts));
const complaint =
  nodeComplaint(process.versions.node) ??
  (unknown.length > 0 ? `No part ${unknown.join(', ')}. Parts: ${Object.keys(parts).join(', ')}.` : undefined);
if (complaint !== undefined) {
  console.error(complaint);
  process.exitCode = 2;
} else {
  await ensureInstalled();
  // Once, before two workers would both find it stale.
  await buildPages();
  await buildBundle();
  const results = await runChosen(values.part.length > 0 ? values.part : Object.keys(parts), values.again);
  const failed = results.filter((result) => !result.passed).map((result) => result.name);
  console.log(
    `\n${results.length - failed.length} passed, ${failed.length} failed${failed.length > 0 ? `: ${failed.join(', ')}` : ''}`,
  );
  process.exitCode = failed.length > 0 ? 1 : 0;
}
