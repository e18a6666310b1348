import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ENGINE_VERSION } from '#lib/reconcile/merit/reconcile';
import { fullSheet, shortSheet } from '#lib/sheet/shippedSheets';
import { buildTemplate, type TemplateParts } from './buildTemplate';
import { isoDay } from './scenario';

export type TemplateStore = {
  /** The data file every visitor's copy starts from, for the day of `now`; built once a day and kept beside the copies. */
  get(now: number): Promise<Buffer>;
};

/** Kept by what it is made from. Code that plays the scenario is not in the name, but the day is: no file lives longer. */
export function createTemplateStore(folder: string, parts: TemplateParts): TemplateStore {
  let current: { readonly name: string; readonly file: Promise<Buffer> } | null = null;
  return {
    get: (now) => {
      const name = templateName(parts, now);
      if (current?.name === name) return current.file;
      const file = load({ folder, name, build: () => buildTemplate(parts, now) });
      const mine = { name, file };
      current = mine;
      // A build that failed is tried again by whoever asks next.
      file.catch(() => {
        if (current === mine) current = null;
      });
      return file;
    },
  };
}

function templateName({ scenario }: TemplateParts, now: number): string {
  const source = JSON.stringify([scenario, fullSheet, shortSheet, ENGINE_VERSION, isoDay(now)]);
  return `template-${createHash('sha256').update(source).digest('hex').slice(0, 16)}.db`;
}

type Wanted = { readonly folder: string; readonly name: string; readonly build: () => Promise<Buffer> };

async function load({ folder, name, build }: Wanted): Promise<Buffer> {
  const path = join(folder, name);
  if (existsSync(path)) return readFileSync(path);
  const file = await build();
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  for (const older of readdirSync(folder)) if (/^template-.*\.db/.test(older)) rmSync(join(folder, older));
  // Whole or not at all: a start that is broken off must not leave half a file behind.
  writeFileSync(`${path}.part`, file, { mode: 0o600 });
  renameSync(`${path}.part`, path);
  return file;
}
