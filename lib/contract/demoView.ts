import { z } from 'zod';
import { idSchema } from './fields';

/** The demo's four seats, by role. The breeder owns the litter. */
export const demoRoleSchema = z.enum(['breeder', 'mentor', 'photographer', 'co-owner']);
export type DemoRole = z.infer<typeof demoRoleSchema>;

/** A visitor's own copy of the demo. */
export const demoViewSchema = z.strictObject({
  role: demoRoleSchema,
  /** The evaluation to read, and the one to score. */
  sealedId: idSchema,
  openId: idSchema,
  /** Whether the open evaluation has come to its reveal. */
  revealed: z.boolean(),
  /** When the copy is removed at the latest: milliseconds UTC. */
  removedAt: z.int(),
});
export type DemoView = z.infer<typeof demoViewSchema>;
