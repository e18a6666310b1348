import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { build, stop } from 'esbuild';
import { fromRoot } from './root.mjs';

const filesIn = (...folder) =>
  readdirSync(fromRoot(...folder), { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
const pathOf = (file, root) => `${file.parentPath}/${file.name}`.slice(fromRoot(...root).length).replaceAll('\\', '/');

/** The pages and files of the build in `.next`, as the browser asks for them. */
function builtShell() {
  const pages = filesIn('.next', 'server', 'app')
    .map((file) => pathOf(file, ['.next', 'server', 'app']))
    .filter((path) => path.endsWith('.html') && !path.startsWith('/_'))
    .map((path) => path.replace(/\.html$/, '').replace(/^\/index$/, '/'));
  const assets = filesIn('.next', 'static').map((file) => `/_next/static${pathOf(file, ['.next', 'static'])}`);
  const icon = existsSync(fromRoot('.next', 'server', 'app', 'icon.svg.body')) ? ['/icon.svg'] : [];
  return {
    build: readFileSync(fromRoot('.next', 'BUILD_ID'), 'utf8').trim(),
    pages: pages.sort(),
    assets: [...assets.sort(), ...icon],
  };
}

/** Bundles the worker that keeps the shell on a device, with the list of what this build consists of, beside the build. */
export async function bundleShell() {
  try {
    const { outputFiles } = await build({
      absWorkingDir: fromRoot(),
      entryPoints: ['app/offline/serviceWorker.ts'],
      bundle: true,
      minify: true,
      format: 'iife',
      target: 'es2020',
      define: { builtShell: JSON.stringify(builtShell()) },
      logLevel: 'silent',
      write: false,
    });
    for (const { contents } of outputFiles) writeFileSync(fromRoot('.next', 'serviceWorker.js'), contents);
  } finally {
    // Its helper process would otherwise live as long as the server.
    await stop();
  }
}
