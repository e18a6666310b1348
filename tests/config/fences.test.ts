import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Files that exist only while this test runs, so that an import has something real to resolve to. `plantedForFences` is in
 * every name: a leftover after a crash is recognised at once.
 */
const planted = [
  'db/plantedForFences.ts',
  'db/queries/unblinded/plantedForFences.ts',
  'server/commands/plantedForFences.ts',
  'server/reveal/plantedForFences.ts',
  'server/write/plantedForFences.ts',
  'server/media/plantedForFences.ts',
  'server/api/plantedForFences.ts',
  'lib/evaluation/plantedForFences.ts',
  'lib/plantedForFences.ts',
].map((path) => join(root, path));

// The planted text is linted without types: it is not part of the compiled house, and the fences do not need them.
const eslint = new ESLint({ cwd: root, overrideConfig: [tseslint.configs.disableTypeChecked] });

/** The ids of the rules that object to `text` standing at `filePath`. */
async function objections(filePath: string, text: string): Promise<string[]> {
  const [result] = await eslint.lintText(`${text}\n`, { filePath: join(root, filePath) });
  return (result?.messages ?? []).map((message) => message.ruleId ?? message.message);
}

const fence = 'boundaries/dependencies';
const value = (source: string) => `import { planted } from '${source}';\nvoid planted;`;
const stepped = (body: string) =>
  `export class A { declare views: { get(): number; change(step: (now: number) => number): void }; save = async () => 1; async add() { ${body} } }`;
const type = (source: string) => `import type { planted } from '${source}';\nexport type Answer = typeof planted;`;

interface Breach {
  what: string;
  at: string;
  breach: string;
  rule: string;
  allowed: { at: string; text: string };
}

const breaches: Breach[] = [
  {
    what: 'app imports a value of db',
    at: 'app/board.tsx',
    breach: value('#db/plantedForFences'),
    rule: fence,
    allowed: { at: 'app/board.tsx', text: value('#lib/plantedForFences') },
  },
  {
    what: 'app imports a type of db',
    at: 'app/board.tsx',
    breach: type('#db/plantedForFences'),
    rule: fence,
    allowed: { at: 'app/board.tsx', text: type('#server/commands/plantedForFences') },
  },
  {
    what: 'app imports a value of server',
    at: 'app/board.tsx',
    breach: value('#server/commands/plantedForFences'),
    rule: fence,
    allowed: { at: 'app/board.tsx', text: type('#server/commands/plantedForFences') },
  },
  {
    what: 'app imports a value of server on demand',
    at: 'app/board.tsx',
    breach: "export const later = () => import('#server/commands/plantedForFences');",
    rule: fence,
    allowed: { at: 'app/board.tsx', text: "export const later = () => import('#lib/plantedForFences');" },
  },
  {
    what: 'a command imports the unblinded queries',
    at: 'server/commands/cards.ts',
    breach: value('#db/queries/unblinded/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/reveal/results.ts', text: value('#db/queries/unblinded/plantedForFences') },
  },
  {
    what: 'a command passes the unblinded queries on',
    at: 'server/commands/cards.ts',
    breach: "export { planted } from '#db/queries/unblinded/plantedForFences';",
    rule: fence,
    allowed: { at: 'server/commands/cards.ts', text: value('#db/plantedForFences') },
  },
  {
    what: 'an ordinary query imports the unblinded ones by a relative path',
    at: 'db/queries/entries.ts',
    breach: value('./unblinded/plantedForFences'),
    rule: fence,
    allowed: { at: 'db/queries/entries.ts', text: value('../plantedForFences') },
  },
  {
    what: 'the whole of server reaches round db to the store itself',
    at: 'server/commands/cards.ts',
    breach: "import Database from 'better-sqlite3';\nvoid Database;",
    rule: fence,
    allowed: { at: 'db/open.ts', text: "import Database from 'better-sqlite3';\nvoid Database;" },
  },
  {
    what: 'db imports server',
    at: 'db/open.ts',
    breach: value('#server/commands/plantedForFences'),
    rule: fence,
    allowed: { at: 'db/open.ts', text: value('#lib/plantedForFences') },
  },
  {
    what: 'lib imports db',
    at: 'lib/stats/mean.ts',
    breach: value('#db/plantedForFences'),
    rule: fence,
    allowed: { at: 'lib/stats/mean.ts', text: value('#lib/plantedForFences') },
  },
  {
    what: 'lib imports a module of Node',
    at: 'lib/stats/mean.ts',
    breach: "import { readFileSync } from 'node:fs';\nvoid readFileSync;",
    rule: fence,
    allowed: { at: 'server/cli/reconcile.ts', text: "import { readFileSync } from 'node:fs';\nvoid readFileSync;" },
  },
  {
    what: 'lib imports a package',
    at: 'lib/contract/score.ts',
    breach: "import { openDB } from 'idb';\nvoid openDB;",
    rule: fence,
    allowed: { at: 'lib/contract/score.ts', text: "import { z } from 'zod';\nvoid z;" },
  },
  {
    what: 'lib asks chance',
    at: 'lib/stats/mean.ts',
    breach: 'export const draw = () => Math.random();',
    rule: 'no-restricted-properties',
    allowed: { at: 'lib/stats/mean.ts', text: 'export const draw = (random: () => number) => Math.floor(random());' },
  },
  {
    what: 'lib reads the clock',
    at: 'lib/stats/mean.ts',
    breach: 'export const now = () => new Date();',
    rule: 'no-restricted-syntax',
    allowed: { at: 'lib/stats/mean.ts', text: 'export const day = (at: string) => new Date(at);' },
  },
  {
    what: 'lib reads the clock in milliseconds',
    at: 'lib/stats/mean.ts',
    breach: 'export const now = () => Date.now();',
    rule: 'no-restricted-properties',
    allowed: { at: 'server/createServer.ts', text: 'export const now = () => Date.now();' },
  },
  {
    what: 'lib fetches',
    at: 'lib/stats/mean.ts',
    breach: "export const ask = () => fetch('/');",
    rule: 'no-restricted-globals',
    allowed: { at: 'app/board.tsx', text: "export const ask = () => fetch('/');" },
  },
  {
    what: 'the hub imports the socket library',
    at: 'server/live/hub.ts',
    breach: "import { Server } from 'socket.io';\nvoid Server;",
    rule: fence,
    allowed: { at: 'server/live/socketIo.ts', text: "import { Server } from 'socket.io';\nvoid Server;" },
  },
  {
    what: 'the socket file imports a rule of the evaluation',
    at: 'server/live/socketIo.ts',
    breach: value('#lib/evaluation/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/commands/cards.ts', text: value('#lib/evaluation/plantedForFences') },
  },
  {
    what: 'the socket file imports a command',
    at: 'server/live/socketIo.ts',
    breach: value('#server/commands/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/api/lockSeat.ts', text: value('#server/commands/plantedForFences') },
  },
  {
    what: 'the socket file imports db',
    at: 'server/live/socketIo.ts',
    breach: value('#db/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/live/socketIo.ts', text: value('#lib/plantedForFences') },
  },
  {
    what: 'reveal imports a command',
    at: 'server/reveal/revealRound.ts',
    breach: value('../commands/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/commands/rounds.ts', text: value('../reveal/plantedForFences') },
  },
  {
    what: 'the door of every change imports a type of a command',
    at: 'server/write/writeEvaluation.ts',
    breach: type('../commands/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/commands/rounds.ts', text: value('../write/plantedForFences') },
  },
  {
    what: 'the door of every change imports the reveal',
    at: 'server/write/commitCards.ts',
    breach: value('../reveal/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/reveal/revealRound.ts', text: value('../write/plantedForFences') },
  },
  {
    what: 'a command imports what takes pictures in',
    at: 'server/commands/photos.ts',
    breach: value('../media/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/media/photoRoute.ts', text: value('../commands/plantedForFences') },
  },
  {
    what: 'a command imports the API',
    at: 'server/commands/photos.ts',
    breach: value('../api/plantedForFences'),
    rule: fence,
    allowed: { at: 'server/api/photo.ts', text: value('../commands/plantedForFences') },
  },
  {
    what: 'another file than main listens',
    at: 'server/createServer.ts',
    breach: 'export const open = (server: { listen(port: number): void }) => server.listen(0);',
    rule: 'no-restricted-syntax',
    allowed: {
      at: 'server/main.ts',
      text: 'export const open = (server: { listen(port: number): void }) => server.listen(0);',
    },
  },
  {
    what: 'an import is computed, so that no fence sees it',
    at: 'app/board.tsx',
    breach: 'export const load = (name: string) => import(`#db/${name}`);',
    rule: 'no-restricted-syntax',
    allowed: { at: 'app/board.tsx', text: "export const load = () => import('#lib/plantedForFences');" },
  },
  {
    what: 'a file passes a whole other file on',
    at: 'lib/stats/mean.ts',
    breach: "export * from '#lib/plantedForFences';",
    rule: 'no-restricted-syntax',
    allowed: { at: 'lib/stats/mean.ts', text: "export { planted } from '#lib/plantedForFences';" },
  },
  {
    what: 'a file has a name that says nothing',
    at: 'lib/stats/utils.ts',
    breach: 'export const one = 1;',
    rule: 'house/file-name',
    allowed: { at: 'lib/stats/mean.ts', text: 'export const one = 1;' },
  },
  {
    what: 'a rule is switched off without a reason',
    at: 'lib/stats/mean.ts',
    breach: '// eslint-disable-next-line max-params\nexport const four = (a: 1, b: 2, c: 3, d: 4) => [a, b, c, d];',
    rule: 'house/disable-reason',
    allowed: {
      at: 'lib/stats/mean.ts',
      text: '// eslint-disable-next-line max-params -- the published formula has four\nexport const four = (a: 1, b: 2, c: 3, d: 4) => [a, b, c, d];',
    },
  },
  {
    what: 'an expression reads state and then waits',
    at: 'app/_data/outbox.ts',
    breach:
      'export class A { state = 0; read = async () => 1; async add() { this.set(this.state + (await this.read())); } set(state: number) { this.state = state; } }',
    rule: 'house/stale-read',
    allowed: {
      at: 'app/_data/outbox.ts',
      text: 'export class A { state = 0; read = async () => 1; async add() { const more = await this.read(); this.set(this.state + more); } set(state: number) { this.state = state; } }',
    },
  },
  {
    what: 'state is added to by what was waited for',
    at: 'server/work/reconciler.ts',
    breach: 'export class A { sum = 0; async add(more: Promise<number>) { this.sum += await more; } }',
    rule: 'house/stale-read',
    allowed: {
      at: 'server/work/reconciler.ts',
      text: 'export class A { sum = 0; async add(more: Promise<number>) { const part = await more; this.sum += part; } }',
    },
  },
  {
    what: 'a step uses what was read before the wait',
    at: 'app/_data/outbox.ts',
    breach: stepped('const { state } = this.views.get(); await this.save(); this.views.change(() => state + 1);'),
    rule: 'house/stale-read',
    allowed: {
      at: 'app/_data/outbox.ts',
      text: stepped('await this.save(); this.views.change((state) => state + 1);'),
    },
  },
  {
    what: 'a step in a loop uses what was read before it',
    at: 'app/_data/outbox.ts',
    breach: stepped(
      'const state = this.views.get(); for (const part of [1, 2]) { this.views.change(() => state + part); await this.save(); }',
    ),
    rule: 'house/stale-read',
    allowed: {
      at: 'app/_data/outbox.ts',
      text: stepped('const state = this.views.get(); this.views.change(() => state + 1); await this.save();'),
    },
  },
  {
    what: 'a test is skipped',
    at: 'tests/lib/stats/mean.test.ts',
    breach: "import { it } from 'vitest';\nit.skip('later', () => undefined);",
    rule: 'no-restricted-syntax',
    allowed: { at: 'tests/lib/stats/mean.test.ts', text: "import { it } from 'vitest';\nit('now', () => undefined);" },
  },
  {
    what: 'a test gives itself a time-out',
    at: 'tests/lib/stats/mean.test.ts',
    breach: "import { it } from 'vitest';\nit('soon', () => undefined, 5000);",
    rule: 'no-restricted-syntax',
    allowed: {
      at: 'tests/lib/stats/mean.test.ts',
      text: "import { it } from 'vitest';\nit('some day', () => undefined);",
    },
  },
  {
    what: 'a test waits for a time of its own',
    at: 'tests/e2e/board.spec.ts',
    breach:
      "import { expect, test } from '@playwright/test';\ntest('soon', async ({ page }) => expect(page.getByText('it')).toBeVisible({ timeout: 5000 }));",
    rule: 'no-restricted-syntax',
    allowed: {
      at: 'tests/e2e/board.spec.ts',
      text: "import { expect, test } from '@playwright/test';\ntest('some day', async ({ page }) => expect(page.getByText('it')).toBeVisible());",
    },
  },
  {
    what: 'a test holds a stopwatch',
    at: 'tests/server/limits.test.ts',
    breach: 'export const from = performance.now();',
    rule: 'no-restricted-syntax',
    allowed: { at: 'tests/support/latency.ts', text: 'export const from = performance.now();' },
  },
];

describe('import fences', () => {
  beforeAll(() => {
    for (const path of planted) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, 'export const planted = 1;\n');
    }
  });

  afterAll(() => {
    for (const path of planted) rmSync(path, { force: true });
  });

  it.each(breaches)('refuses that $what', async ({ at, breach, rule, allowed }) => {
    expect(await objections(at, breach)).toEqual([rule]);
    expect(await objections(allowed.at, allowed.text)).toEqual([]);
  });
});
