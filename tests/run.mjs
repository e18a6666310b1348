// `npm test`: everything, in one go. `--only lint|types|build|unit|browser` (repeatable) runs a part while developing.
// Lint, types and the production build count as one test each; a skipped test counts as failed. The last line holds the totals.
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildBundle, buildPages } from '../server/cli/build.mjs';
import { ensureCompiled, ensurePackages } from '../server/cli/install.mjs';
import { nodeComplaint } from '../server/cli/nodeVersion.mjs';
import { fromRoot } from '../server/cli/root.mjs';
import { StepFailed } from '../server/cli/step.mjs';
import { ensureChromium } from './support/chromium.mjs';
import { playwrightTotals, vitestTotals, withRunnersEnd } from './support/runnerTotals.mjs';
import { runProgram } from './support/runProgram.mjs';
import { workersAtOnce } from './support/workersAtOnce.mjs';

const reports = mkdtempSync(join(tmpdir(), 'evenstack-test-'));
/** Traces and pictures of what failed in the browser; kept after the run when there are any. */
const traces = join(reports, 'test-results');
/** Minutes after which a part is taken to hang. Nets, not bounds: several times what a part needs on one core that is not its own. */
const hangs = { lint: 20, types: 20, unit: 45, browser: 65 };
const inModules = (...parts) => fromRoot('node_modules', ...parts);
const node = (...command) => [process.execPath, ...command];

function readReport(name) {
  try {
    return JSON.parse(readFileSync(join(reports, name), 'utf8'));
  } catch {
    // A runner that died leaves none; withRunnersEnd says so.
    return undefined;
  }
}

/** A runner without tests of its own: it passes or fails as one. */
const asOne = (title, error) =>
  error === undefined ? { passed: 1, failures: [] } : { passed: 0, failures: [`${title}: ${error}`] };

async function lint() {
  const formatted = await runProgram(
    node(
      inModules('@biomejs', 'biome', 'bin', 'biome'),
      'format',
      '--config-path',
      fromRoot('tests/config/formatter.json'),
      '.',
    ),
    {
      minutes: hangs.lint,
    },
  );
  if (formatted.code !== 0) return asOne('lint', 'not formatted; `npm run format` does it');
  const { code, tooLong } = await runProgram(
    node(inModules('eslint', 'bin', 'eslint.js'), '.', '--max-warnings', '0'),
    { minutes: hangs.lint },
  );
  return asOne('lint', code === 0 ? undefined : tooLong ? 'took too long' : 'found something');
}

async function types() {
  const generated = await runProgram(node(inModules('next', 'dist', 'bin', 'next'), 'typegen'), {
    minutes: hangs.types,
  });
  if (generated.code !== 0) return asOne('types', 'the types of the pages could not be generated');
  // The compiler in machine code checks in a quarter of the time; the one that lint and our own tests ask by program stays beside it.
  const { code, tooLong } = await runProgram(node(inModules('typescript-native', 'bin', 'tsc'), '-b'), {
    minutes: hangs.types,
  });
  return asOne('types', code === 0 ? undefined : tooLong ? 'took too long' : 'found something');
}

/** @returns {Promise<string | undefined>} what went wrong */
async function builtError() {
  try {
    await buildBundle();
    await buildPages();
    return undefined;
  } catch (error) {
    if (error instanceof StepFailed) return error.message;
    throw error;
  }
}

const build = async () => asOne('build', await builtError());

async function unit() {
  const report = 'vitest.json';
  const run = await runProgram(
    node(
      inModules('vitest', 'vitest.mjs'),
      'run',
      '-c',
      fromRoot('tests/config/vitest.config.ts'),
      '--reporter',
      'default',
      '--reporter',
      'json',
      `--outputFile.json=${join(reports, report)}`,
    ),
    { minutes: hangs.unit },
  );
  const result = readReport(report);
  return withRunnersEnd(result && vitestTotals(result), { runner: 'vitest', ...run });
}

async function browser() {
  const notBuilt = await builtError();
  if (notBuilt !== undefined) return asOne('browser', `not run, the production build failed: ${notBuilt}`);
  let chromium;
  try {
    chromium = ensureChromium();
  } catch (error) {
    return asOne('browser', error.message);
  }
  const report = 'playwright.json';
  const run = await runProgram(
    node(
      inModules('@playwright', 'test', 'cli.js'),
      'test',
      '-c',
      fromRoot('tests/e2e/playwright.config.ts'),
      '--reporter',
      'list,json',
    ),
    {
      minutes: hangs.browser,
      env: { CHROMIUM_PATH: chromium, PLAYWRIGHT_JSON_OUTPUT_FILE: join(reports, report), TEST_RESULTS: traces },
    },
  );
  const result = readReport(report);
  return withRunnersEnd(result && playwrightTotals(result), { runner: 'playwright', ...run });
}

const parts = { lint, types, build, unit, browser };

function chosenParts() {
  const { values } = parseArgs({ options: { only: { type: 'string', multiple: true, default: [] } } });
  const unknown = values.only.filter((name) => !(name in parts));
  if (unknown.length > 0) throw new Error(`--only takes ${Object.keys(parts).join(', ')}; not ${unknown.join(', ')}`);
  return Object.entries(parts).filter(([name]) => values.only.length === 0 || values.only.includes(name));
}

/** A crash of our own code in one part must not hide the other parts. */
async function runPart([name, part]) {
  const began = Date.now();
  console.log(`\n== ${name}`);
  let totals;
  try {
    totals = await part();
  } catch (error) {
    totals = asOne(name, error.stack ?? String(error));
  }
  console.log(
    `== ${name}: ${totals.passed} passed, ${totals.failures.length} failed, ${Math.round((Date.now() - began) / 1000)} s`,
  );
  return totals;
}

async function inTurn(group) {
  const results = [];
  for (const part of group) results.push(await runPart(part));
  return results;
}

/** @returns {Promise<string | undefined>} what went wrong */
async function installError(install) {
  try {
    await install();
    return undefined;
  } catch (error) {
    return error.message;
  }
}

/** Compiled once, however many ask. */
let compiling;

/** What runs on compiled packages, one after the other. */
async function onceCompiled(group) {
  if (group.length === 0) return [];
  compiling ??= installError(ensureCompiled);
  const error = await compiling;
  return error === undefined ? inTurn(group) : [asOne('install', error)];
}

async function runAll() {
  const complaint = nodeComplaint(process.versions.node);
  if (complaint !== undefined) return [asOne('node', complaint)];
  process.chdir(fromRoot());
  const chosen = chosenParts();
  const error = await installError(ensurePackages);
  if (error !== undefined) return [asOne('install', error)];
  const named = (...names) => chosen.filter(([name]) => names.includes(name));
  if (workersAtOnce() === 1)
    return [...(await inTurn(named('lint'))), ...(await onceCompiled(named('types', 'build', 'unit', 'browser')))];
  // Lint needs nothing that is compiled: it keeps one core busy while the other compiles, checks types and builds. Browsers are given both.
  const early = await Promise.all([inTurn(named('lint')), onceCompiled(named('types', 'build', 'unit'))]);
  return [...early.flat(), ...(await onceCompiled(named('browser')))];
}

const results = await runAll();
const failures = results.flatMap((result) => result.failures);
const passed = results.reduce((sum, result) => sum + result.passed, 0);
const kept = failures.length > 0 && existsSync(traces);
if (!kept) rmSync(reports, { recursive: true, force: true });
if (failures.length > 0) console.log(`\nFailed:\n${failures.map((line) => `- ${line}`).join('\n')}`);
if (kept) console.log(`\nTraces and pictures of what failed: ${traces} (npx playwright show-trace FILE)`);
console.log('\nLint, types and the production build count as one each.');
console.log(`${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length > 0 ? 1 : 0;
