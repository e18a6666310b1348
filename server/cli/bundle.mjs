import { existsSync, mkdirSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { build, context, formatMessages, stop } from 'esbuild';
import { commands } from './commands.mjs';
import { fromRoot } from './root.mjs';
import { StepFailed } from './step.mjs';

/** Statistics have no store; what works on the store itself lies in db; pictures have a process of their own, and a file that arrives is checked apart. */
const workerFolders = ['server/work', 'server/media', 'server/carry', 'db'];

const workers = () =>
  workerFolders
    .filter((folder) => existsSync(fromRoot(folder)))
    .flatMap((folder) => readdirSync(fromRoot(folder)).map((name) => `${folder}/${name}`))
    .filter((path) => path.endsWith('Worker.ts'));

/**
 * What is bundled, by the name it gets in dist/. A worker is started by `new URL('./nameWorker.js', import.meta.url)`, beside
 * the bundle that starts it, so it stands beside main.js and beside the commands.
 */
function entryPoints() {
  const main = existsSync(fromRoot('server/main.ts')) ? [['main', 'server/main.ts']] : [];
  const ofWorkers = workers().flatMap((path) =>
    ['', 'cli/'].map((folder) => [`${folder}${basename(path, '.ts')}`, path]),
  );
  const ofCommands = commands
    .map((name) => [`cli/${name}`, `server/cli/${name}.ts`])
    .filter(([, source]) => existsSync(fromRoot(source)));
  return Object.fromEntries([...main, ...ofWorkers, ...ofCommands]);
}

const options = () => ({
  absWorkingDir: fromRoot(),
  entryPoints: entryPoints(),
  outdir: fromRoot('dist'),
  bundle: true,
  packages: 'external',
  platform: 'node',
  format: 'esm',
  target: 'node20',
  sourcemap: true,
  logLevel: 'silent',
});

/** esbuild's own account of what is wrong, with file and line. */
async function failure(error) {
  const lines = await formatMessages(error.errors ?? [], { kind: 'error' });
  return new StepFailed([...lines, 'Bundling the server: failed.'].join('\n'));
}

/** Each file appears whole or not at all: another command may be starting from dist/ this very moment. */
function writeWhole({ path, contents }) {
  const unfinished = `${path}.${process.pid}`;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(unfinished, contents);
  renameSync(unfinished, path);
}

/**
 * Bundles server/main.ts, the workers and the commands into dist/: Node 20 starts no worker from a .ts file.
 *
 * @param {{ dev: boolean, onBuilt?: (ok: boolean) => void }} how with `dev` it keeps watching and reports each rebuild
 * @returns {Promise<() => Promise<void>>} stops the watch (does nothing without `dev`)
 * @throws {StepFailed} when the sources do not bundle (without `dev`)
 */
export async function bundle({ dev, onBuilt = () => {} }) {
  if (!dev) {
    try {
      const { outputFiles } = await build({ ...options(), write: false });
      outputFiles.forEach(writeWhole);
    } catch (error) {
      throw await failure(error);
    } finally {
      // Its helper process would otherwise live as long as the server.
      await stop();
    }
    return async () => {};
  }
  const reporter = {
    name: 'report',
    setup: (builder) => builder.onEnd((result) => onBuilt(result.errors.length === 0)),
  };
  const watching = await context({ ...options(), logLevel: 'warning', plugins: [reporter] });
  await watching.watch();
  return () => watching.dispose();
}
