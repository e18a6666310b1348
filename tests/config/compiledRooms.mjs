import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { fingerprint } from '../../server/cli/fingerprint.mjs';
import { fromRoot } from '../../server/cli/root.mjs';

/** Rooms without style sheets or pictures: plain modules that Node itself can load once their types are gone. */
const rooms = ['lib', 'db', 'server'];
const home = fromRoot('dist', 'tested');
const dayMs = 86_400_000;

/** @returns {string | undefined} the TypeScript source in one of the rooms that an import means, as an absolute path */
export function sourceOf(specifier, importer) {
  const named = /^#(lib|db|server)\/(.*)$/.exec(specifier);
  const path = named
    ? fromRoot(named[1], `${named[2]}.ts`)
    : specifier.startsWith('.') && importer
      ? `${join(dirname(importer), specifier)}.ts`
      : undefined;
  if (path === undefined || !rooms.includes(relative(fromRoot(), path).split(sep)[0])) return undefined;
  return existsSync(path) ? path : undefined;
}

const compiledPath = (path) => relative(fromRoot(), path).replace(/\.ts$/, '.js');

/** Each module stays a file of its own, so that a test loads what it imports and nothing is there twice. */
const asWritten = {
  name: 'as-written',
  setup(builder) {
    builder.onResolve({ filter: /.*/ }, ({ path, importer, kind }) => {
      if (kind === 'entry-point') return undefined;
      const source = sourceOf(path, importer);
      if (source !== undefined) {
        const beside = relative(dirname(compiledPath(importer)), compiledPath(source)).replaceAll(sep, '/');
        return { path: beside.startsWith('.') ? beside : `./${beside}`, external: true };
      }
      return { path: path.startsWith('.') ? pathToFileURL(join(dirname(importer), path)).href : path, external: true };
    });
    // What lies beside a source, migrations for one, is looked for there.
    builder.onLoad({ filter: /\.ts$/ }, ({ path }) => ({
      loader: 'ts',
      contents: readFileSync(path, 'utf8').replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href)),
    }));
  },
};

const filesOf = (room) =>
  readdirSync(fromRoot(room), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))
    .map((name) => fromRoot(room, name));

/** Another run may still read a folder it began with; a day later none does. */
function removeOld(kept) {
  for (const name of readdirSync(home)) {
    const folder = join(home, name);
    if (name !== kept && Date.now() - statSync(folder).mtimeMs > dayMs)
      rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * The rooms' modules as JavaScript, compiled in one go unless this very content was before. Loading the four or five hundred
 * that a server test needs one by one through the test runner's own transform costs several seconds of processor time a
 * worker; so it costs a fraction of one.
 *
 * @returns {Promise<string>} the folder; it appears whole or not at all
 */
export async function compileRooms() {
  const name = fingerprint([...rooms, 'tests/config/compiledRooms.mjs', 'package-lock.json'])
    .content()
    .slice(0, 16);
  const folder = join(home, name);
  mkdirSync(home, { recursive: true });
  if (!existsSync(folder)) {
    const unfinished = `${folder}.${process.pid}`;
    await build({
      absWorkingDir: fromRoot(),
      entryPoints: rooms.flatMap(filesOf),
      outbase: fromRoot(),
      outdir: unfinished,
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      sourcemap: 'inline',
      logLevel: 'silent',
      plugins: [asWritten],
    });
    try {
      renameSync(unfinished, folder);
    } catch (error) {
      // Another run was first, with the same content.
      if (!existsSync(folder)) throw error;
      rmSync(unfinished, { recursive: true, force: true });
    }
  }
  removeOld(basename(folder));
  return folder;
}

/** For the test runner: whatever imports one of the rooms' modules, a test or a page's part, gets the compiled one. */
export const readCompiled = (folder) => ({
  name: 'read-compiled',
  enforce: 'pre',
  resolveId(specifier, importer) {
    const source = sourceOf(specifier, importer?.startsWith('file:') ? fileURLToPath(importer) : importer);
    return source === undefined ? undefined : { id: join(folder, compiledPath(source)), external: true };
  },
});
