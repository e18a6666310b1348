import { buildWhenChanged } from './freshness.mjs';
import { fromRoot } from './root.mjs';
import { runStep, say } from './step.mjs';

const always = ['lib', 'package.json', 'package-lock.json', 'tsconfig.json'];

/** The pages and their scripts, and the worker that keeps them on a device. They take types only from server and db (a fence of lint), so those are no input. */
export const buildPages = () =>
  buildWhenChanged({
    target: 'pages',
    inputs: [...always, 'app', 'public', 'next.config.ts'],
    proof: '.next/serviceWorker.js',
    build: async () => {
      await runStep({
        title: 'Building the pages (half a minute or so)',
        command: process.execPath,
        args: [fromRoot('node_modules', 'next', 'dist', 'bin', 'next'), 'build'],
        env: { NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1' },
      });
      const { bundleShell } = await import('./shell.mjs');
      await bundleShell();
    },
  });

/** The server, its workers and the commands. */
export const buildBundle = () =>
  buildWhenChanged({
    target: 'bundle',
    inputs: [...always, 'server', 'db', 'fixtures/demo'],
    proof: 'dist/main.js',
    build: async () => {
      say('Bundling the server …');
      const { bundle } = await import('./bundle.mjs');
      await bundle({ dev: false });
    },
  });
