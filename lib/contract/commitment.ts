import { z } from 'zod';
import { entryBodySchema } from './entry';
import { idSchema } from './fields';

/** SHA-256 in hex. */
export const hashSchema = z.string().regex(/^[0-9a-f]{64}$/);

/** 128 random bits in hex, made afresh for one lock: without it a card could be guessed from its hash. */
export const nonceSchema = idSchema;

/** Published when the round closes. `locked` is false for a card that the server committed to when the round closed over it. */
export const publishedCommitmentSchema = z.strictObject({
  seat: idSchema,
  hash: hashSchema,
  by: z.enum(['device', 'server']),
  locked: z.boolean(),
});
export type PublishedCommitment = z.infer<typeof publishedCommitmentSchema>;

/** Opened at the reveal: what the hash was made of, so that whoever reads it can make it again. */
export const openedCommitmentSchema = publishedCommitmentSchema.extend({
  roundId: idSchema,
  nonce: nonceSchema,
  /** The seat had been issued again: its new device cannot bind what it does not see, so the server bound its whole card. */
  reissued: z.boolean(),
  /** What the person wrote was removed since: the hash can no longer be made from what is left. */
  wordsRemoved: z.boolean(),
  cards: z.array(z.strictObject({ subject: idSchema, body: entryBodySchema })),
});
export type OpenedCommitment = z.infer<typeof openedCommitmentSchema>;

/** The end of the record of what happened, for all evaluations of the data file: its length and its hash, nothing of its lines. */
export const recordHeadSchema = z.strictObject({ seq: z.int(), hash: hashSchema });
export type RecordHead = z.infer<typeof recordHeadSchema>;
