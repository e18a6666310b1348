import { z } from 'zod';
import { idSchema } from './id';

export const sessionViewSchema = z.strictObject({
  owner: z.boolean(),
  seat: z.strictObject({ id: idSchema, label: z.string(), evaluationId: idSchema }).nullable(),
  demo: z.boolean(),
  protocolVersion: z.int(),
});
export type SessionView = z.infer<typeof sessionViewSchema>;
