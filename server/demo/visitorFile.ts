import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { demoRoleSchema } from '#lib/contract/demoView';
import { idSchema } from '#lib/contract/fields';

const secretSchema = z.string().min(20);

/**
 * What is kept of a visitor beside the copy. Secrets stand here in full, unlike anywhere else, because the scripted seats
 * sign in with theirs after a restart; they open nothing but this visitor's invented litter. The file has mode 0600.
 */
const visitorSchema = z.strictObject({
  id: idSchema,
  role: demoRoleSchema,
  enteredAt: z.int(),
  sealed: z.strictObject({ id: idSchema, seat: idSchema, secret: secretSchema }),
  open: z.strictObject({ id: idSchema, seat: idSchema, secret: secretSchema }),
  cast: z.array(z.strictObject({ role: demoRoleSchema, secret: secretSchema })),
});
export type Visitor = z.infer<typeof visitorSchema>;

const fileOf = (folder: string) => join(folder, 'visitor.json');

/** Written last: a folder without it holds half a copy. */
export function writeVisitor(folder: string, visitor: Visitor): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeFileSync(`${fileOf(folder)}.part`, JSON.stringify(visitor), { mode: 0o600 });
  renameSync(`${fileOf(folder)}.part`, fileOf(folder));
}

/** Null when there is none, or none that can be read. */
export function readVisitor(folder: string): Visitor | null {
  try {
    const read = visitorSchema.safeParse(JSON.parse(readFileSync(fileOf(folder), 'utf8')));
    return read.success ? read.data : null;
  } catch {
    // Missing, or cut off in the middle: the copy was never finished.
    return null;
  }
}
