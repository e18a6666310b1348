import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));

export type FaultPrograms = { readonly server: string; readonly writer: string; remove(): void };

/** The programs of the fault tests as plain JavaScript beside the app's own bundle: they start as fast as the app does, from today's sources. */
export async function bundleFaultPrograms(): Promise<FaultPrograms> {
  const outdir = `${root}dist/faults-${process.pid}`;
  await build({
    absWorkingDir: root,
    entryPoints: {
      server: 'tests/support/faultServer.ts',
      writer: 'tests/support/faultWriter.ts',
      backUpWorker: 'db/backUpWorker.ts',
    },
    outdir,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'silent',
  });
  return {
    server: `${outdir}/server.js`,
    writer: `${outdir}/writer.js`,
    remove: () => rmSync(outdir, { recursive: true, force: true }),
  };
}
