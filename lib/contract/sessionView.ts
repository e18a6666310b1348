import { z } from 'zod';
import { idSchema } from './fields';

export const sessionViewSchema = z.strictObject({
  owner: z.boolean(),
  seat: z.strictObject({ id: idSchema, label: z.string(), evaluationId: idSchema }).nullable(),
  /** For a further device that asks to be let in: what it and the first device show, to be compared. */
  asking: z.strictObject({ digits: z.string(), state: z.enum(['waiting', 'refused', 'over']) }).nullable(),
  demo: z.boolean(),
});
export type SessionView = z.infer<typeof sessionViewSchema>;

/** A code to be spoken, shown this once. `further`: it only lets a device ask. */
export const spokenCodeSchema = z.strictObject({ code: z.string(), expiresAt: z.int(), further: z.boolean() });

export const devicesViewSchema = z.strictObject({
  devices: z.array(
    z.strictObject({
      id: idSchema,
      createdAt: z.int(),
      /** To the minute. */
      seenAt: z.int(),
      cameBy: z.enum(['link', 'code', 'approval', 'passphrase', 'recovery']),
      /** The one that asks. */
      here: z.boolean(),
    }),
  ),
  asking: z.array(z.strictObject({ id: idSchema, digits: z.string(), askedAt: z.int() })),
});
export type DevicesView = z.infer<typeof devicesViewSchema>;
