// `npm run bench:live`: builds what is stale, then measures. `-- SECONDS` sets how long (20).
import { buildBundle, buildPages } from '../server/cli/build.mjs';
import { ensureInstalled } from '../server/cli/install.mjs';
import { fromRoot } from '../server/cli/root.mjs';
import { endByUncaughtFaults } from '../server/cli/step.mjs';
import { runProgram } from './support/runProgram.mjs';

endByUncaughtFaults();
await ensureInstalled();
await buildPages();
await buildBundle();
const { code } = await runProgram(
  [process.execPath, '--import', 'tsx', fromRoot('tests', 'bench', 'live.ts'), ...process.argv.slice(2)],
  { minutes: 10 },
);
process.exitCode = code === 0 ? 0 : 1;
